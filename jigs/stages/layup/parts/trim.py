"""The square sled that trims slabs to pieces, and its stops. Plan coordinates as in its layout."""

from __future__ import annotations

from math import degrees

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, circle, polygon, rectangle
from jigs.forms.plan import Plan
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.lines import broken
from jigs.parts.part import Dimension, EdgeAngle, EdgeGap, Line, Part, Point
from jigs.parts.places import lettered
from jigs.parts.sheet import cut_part
from jigs.parts.sleds import hold_down
from jigs.parts.sleds.angles import show_degrees
from jigs.parts.sleds.strip_sled import (
    FAMILY,
    base_outline,
    exit_block,
    fence,
    grip,
    grip_slots,
    pin_dimensions,
    runner,
    screws,
)
from jigs.stages.layup.layout.trim import TrimSledLayout
from jigs.stages.layup.plan.jigs import LayupJigs
from jigs.stages.layup.plan.layup import LayupPlan
from jigs.words.lengths import show_length

SPARE_STOP = "The other square stop trims a slab that was cut too wide, the pieces' ends against the fence."


def trim_sled(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> list[Part]:
    """Base, fence, hold-down, exit block, runner, handle; a slanted stop and a square one for each side."""
    sled, end = jigs.trim, jigs.suffix
    stops = [_slanted_stop(plan, sled, end)] if sled.slanted else []
    stops += [_square_stop(plan, sled, *side, end) for side in _sides(layup)]
    return [
        _base(plan, layup, jigs),
        fence(
            plan,
            sled,
            f"layup-trim-fence{end}",
            ("TRIM FENCE", "← STOP  WASTE →"),
            sled.fence_ends,
            hold_down.openings(sled.hold, sled.fittings, sled.slide, sled.height, mirror=True),
        ),
        hold_down.slide(plan, FAMILY, f"layup-trim-hold{end}", sled.hold, "piece"),
        hold_down.finger(plan, FAMILY, f"layup-trim-finger{end}", sled.hold, "piece", 1),
        hold_down.cam(plan, FAMILY, f"layup-trim-cam{end}", 1),
        hold_down.lever(plan, FAMILY, f"layup-trim-lever{end}", 1),
        *stops,
        exit_block(plan, sled, f"layup-trim-exit-block{end}"),
        runner(plan, sled, f"layup-trim-runner{end}", screws(sled, _slots(sled))),
        grip(plan, f"layup-trim-handle{end}"),
    ]


def _sides(layup: LayupPlan) -> list[tuple[str, float]]:
    """The trimmed side first: its name and length."""
    cut = layup.way.cut
    return [(cut, layup.way.slab_length), ("b" if cut == "a" else "a", layup.way.slab)]


def _slots(sled: TrimSledLayout) -> list[Contour]:
    half = sled.play / 2
    fence_slots = [rectangle(x - half, -sled.sheet, x + TAB + half, sled.play) for x in sled.tabs]
    return [*fence_slots, *grip_slots(sled)]


def _base(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> Part:
    sled, outline = jigs.trim, base_outline(jigs.trim)
    slots, pins = _slots(sled), [circle(pin, sled.fittings.pin / 2) for pin in sled.pins]
    holes = [*slots, *pins, *screws(sled, [*slots, *pins])]
    blade = Line(((0.0, sled.cut_end), (0.0, sled.far_edge)), "blade, piece's side")
    lines = tuple(broken(blade, holes))
    length = show_length(sled.length, plan.job.unit, exact=True)
    text = (
        plan.job.title.upper(),
        f"LAYUP TRIM SLED, SIDE {layup.way.cut.upper()} {length.upper()}",
        "HOLD-DOWN ON THE PIECE",
        "WASTE SIDE STAYS FREE",
        *SAW_CAUTION,
        "↓ OPERATOR",
    )
    wall, side = (sled.tabs[0] + TAB / 2, -sled.sheet), (sled.right_edge, sled.operator_edge + 5)
    return cut_part(
        plan,
        FAMILY,
        f"layup-trim-base{jigs.suffix}",
        "carries slabs past the upright blade, square",
        outline,
        holes,
        (*lines, *lettered(outline, holes, lines, text, near=(sled.left_edge, sled.operator_edge))),
        (
            Dimension("fence to blade", 90.0, EdgeAngle(wall, side)),
            *pin_dimensions(sled.fittings, sled.pins),
        ),
        (SPARE_STOP,),
    )


def _stop(
    plan: Plan, sled: TrimSledLayout, name: str, edge: tuple[Point, Point], says: tuple[str, ...],
    dimension: Dimension,
) -> Part:  # fmt: skip
    """In the base's coordinates; `edge` is the working edge, from the fence away."""
    low, high = edge
    outline = polygon([(sled.stop_left, low[1]), low, high, (sled.stop_left, high[1])])
    holes = [circle(pin, sled.fittings.pin / 2) for pin in sled.pins]
    return cut_part(
        plan,
        FAMILY,
        name,
        "what the slab's end butts against, on the side that is held",
        outline,
        holes,
        lettered(outline, holes, (), (*says, "FENCE ↓", *SAW_CAUTION)),
        (dimension, *pin_dimensions(sled.fittings, sled.pins)),
    )


def _slanted_stop(plan: Plan, sled: TrimSledLayout, end: str) -> Part:
    low, high = sled.stop_depth
    edge = ((sled.slanted_at(low), low), (sled.slanted_at(high), high))
    middle = ((edge[0][0] + edge[1][0]) / 2, (low + high) / 2)
    probe = EdgeAngle((sled.stop_left + 5, low), middle)
    return _stop(
        plan,
        sled,
        f"layup-slanted-stop{end}",
        edge,
        ("FIRST CUT", f"PLIES {show_degrees(sled.slant)}"),
        Dimension("fence to slanted edge", degrees(sled.slant), probe),
    )


def _square_stop(plan: Plan, sled: TrimSledLayout, side: str, length: float, end: str) -> Part:
    low, high = sled.stop_depth
    middle = (low + high) / 2
    shown = show_length(length, plan.job.unit, exact=True)
    return _stop(
        plan,
        sled,
        f"layup-square-stop-{side}{end}",
        ((-length, low), (-length, high)),
        (f"STOP {side.upper()}", shown.upper()),
        Dimension(
            "edge to rear", -length - sled.stop_left, EdgeGap((-length, middle), (sled.stop_left, middle))
        ),
    )
