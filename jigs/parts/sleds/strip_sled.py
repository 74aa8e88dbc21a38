"""What both of a layup's sleds, and that of staves, are made of: base, fence, hold-down, exit block, runner, handle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from geometry.compared.alike import FreeEdge
from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import HANDLE_TABS, TAB
from geometry.plane.contour import Contour, circle, polygon, rectangle
from jigs.asked.job_shop import Family
from jigs.forms.plan import Plan
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.part import Dimension, EdgeGap, HoleDiameter, Part, Point
from jigs.parts.places import lettered
from jigs.parts.sheet import cut_part, with_tabs
from jigs.parts.sleds import edge_guide
from jigs.parts.sleds.base import exit_block_free
from jigs.parts.sleds.uprights import HIGHER, handle
from jigs.stages.layup.layout.sled import LayupSledLayout
from jigs.stages.layup.layout.trim import TrimSledLayout
from jigs.stages.staves.layout import StaveSledLayout

BRUSH = "Brush the dust from the stop's edge before every piece."


FAMILY: Family = "layup"
Sled = LayupSledLayout | TrimSledLayout | StaveSledLayout


def base_outline(sled: Sled) -> Contour:
    return rectangle(sled.left_edge, sled.operator_edge, sled.right_edge, sled.far_edge)


def grip_slots(sled: Sled) -> list[Contour]:
    """Of the handle, whose far side is at its place."""
    (x0, y0), t, half = sled.handle, sled.sheet, sled.play / 2
    return [rectangle(x0 + x - half, y0 - t - half, x0 + x + TAB + half, y0 + half) for x in HANDLE_TABS]


def screws(sled: Sled, taken: Sequence[Contour]) -> list[Contour]:
    """Holes in the base over the runner, where nothing else is."""
    x, low, high = sum(sled.runner) / 2, sled.operator_edge + 15, sled.far_edge - 15
    holes = [circle((x, low + (high - low) * i / 4), sled.fittings.screw_hole / 2) for i in range(5)]
    return [hole for hole in holes if not any(edge_guide.near(hole, other) for other in taken)]


def pin_dimensions(fittings: Fittings, pins: Sequence[Point]) -> list[Dimension]:
    """Of the holes for pins."""
    return [Dimension(f"hole for pin {i + 1}", fittings.pin, HoleDiameter(pin)) for i, pin in enumerate(pins)]


def fence(
    plan: Plan, sled: Sled, name: str, says: Sequence[str], ends: tuple[float, float], holes: Sequence[Contour]
) -> Part:  # fmt: skip
    """x along the fence, y the height above the base; the blade passes below its top. `holes` are of hold-downs."""
    (left, right), height = ends, sled.fence_height
    outline = with_tabs(
        [(right, 0.0), (right, height), (left, height), (left, 0.0)], sorted(sled.tabs), sled.sheet
    )
    return cut_part(
        plan,
        FAMILY,
        name,
        "what the wood leans on, on both sides of the blade",
        outline,
        holes,
        lettered(outline, holes, (), (plan.job.title.upper(), *says, "FOOT ↓", *SAW_CAUTION)),
        (Dimension("foot to top", height, EdgeGap((left + 2, 0.0), ((left + right) / 2, height)), "differ"),),
        making=("Press it to the walls of its slots that are away from the wood.",),
        free=(FreeEdge(((left + right) / 2, height), 2.0, HIGHER),),
    )


def exit_block(plan: Plan, sled: Sled, name: str) -> Part:
    outline = rectangle(*sled.exit_block)
    return cut_part(
        plan,
        FAMILY,
        name,
        "the blade ends every cut inside it",
        outline,
        (),
        lettered(outline, (), (), ("EXIT BLOCK", "BLADE INSIDE", "NO SCREWS")),
        (),
        quantity=sled.exit_layers,
        stack=sled.exit_layers,
        free=exit_block_free(outline.bounds),
    )


def runner(plan: Plan, sled: Sled, name: str, holes_over: Sequence[Contour]) -> Part:
    wish, saw = plan.job.workshop.sled, plan.job.workshop.saw
    width, depth = saw.slot_width - wish.runner_play, saw.slot_depth - wish.runner_clearance
    holes = [
        circle((hole.centroid[1] - sled.operator_edge, width / 2), sled.fittings.screw_hole / 2)
        for hole in holes_over
    ]
    outline = rectangle(0.0, 0.0, sled.far_edge - sled.operator_edge, width)
    return cut_part(
        plan,
        FAMILY,
        name,
        "slides in the mitre slot, play on one side only",
        outline,
        holes,
        lettered(outline, holes, (), ("RUNNER",)),
        (),
        thickness=depth,
        material="hardwood",
    )


def grip(plan: Plan, name: str) -> Part:
    return replace(handle(plan), name=name, family=FAMILY)


def slot(corners: Sequence[tuple[float, float]]) -> Contour:
    return polygon(list(corners)).ccw()
