"""What sleds on a table saw have in common: slots, screws, exit block, runner, handle, and a fence across the blade."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Protocol

from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import HANDLE_TABS, TAB
from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.readback.free_edge import FreeEdge
from jigs.parts.part import Line, Part, Point
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, with_tabs
from jigs.parts.sleds import edge_guide
from jigs.parts.sleds.uprights import HIGHER
from jigs.plans.plan import Plan

BRUSH = "Brush the dust from the stop's edge before every piece."
SCREWS = 5  # of a runner
SCREWED = 0.1  # mm that an older runner's holes may be out: each screw has more room than that in its holes
BESIDE_BLOCK = (1.5, 30.0)  # mm less or more of an exit block, and of the base under it, on the free sides


class OnRunner(Protocol):
    """A base over the runner, whose two sides are at these x."""

    @property
    def runner(self) -> Point: ...
    @property
    def fittings(self) -> Fittings: ...
    @property
    def operator_edge(self) -> float: ...
    @property
    def far_edge(self) -> float: ...


class Fenced(Protocol):
    """A sled with one fence, of one sheet; `tabs` start at these places along it."""

    @property
    def fence_height(self) -> float: ...
    @property
    def tabs(self) -> Sequence[float]: ...
    @property
    def sheet(self) -> float: ...


class OnBase(Protocol):
    """What lies on a base with these edges."""

    @property
    def left_edge(self) -> float: ...
    @property
    def right_edge(self) -> float: ...
    @property
    def operator_edge(self) -> float: ...
    @property
    def far_edge(self) -> float: ...


def base_outline(sled: OnBase) -> Contour:
    return rectangle(sled.left_edge, sled.operator_edge, sled.right_edge, sled.far_edge)


def grip_slots(place: Point, sheet: float, play: float) -> list[Contour]:
    """Of the handle: its left end, and the face that is away from the operator."""
    (x0, y0), half = place, play / 2
    return [rectangle(x0 + x - half, y0 - sheet - half, x0 + x + TAB + half, y0 + half) for x in HANDLE_TABS]


def fence_slots(tabs: Sequence[float], sheet: float, play: float) -> list[Contour]:
    """Of a fence square to the blade, its face on y = 0."""
    return [rectangle(x - play / 2, -sheet, x + TAB + play / 2, play) for x in tabs]


def screws(sled: OnRunner, taken: Sequence[Contour]) -> list[Contour]:
    """Holes in the base over the runner, where nothing else is."""
    x, low, high = sum(sled.runner) / 2, sled.operator_edge + 15, sled.far_edge - 15
    radius, apart = sled.fittings.screw_hole / 2, (high - low) / (SCREWS - 1)
    holes = [circle((x, low + apart * i), radius) for i in range(SCREWS)]
    return [hole for hole in holes if not any(edge_guide.near(hole, other) for other in taken)]


def fence(
    plan: Plan, sled: Fenced, name: str, says: Sequence[str], ends: tuple[float, float],
    holes: Sequence[Contour],
) -> Part:  # fmt: skip
    """x along the fence, y the height above the base; the blade passes below its top. `holes` are of hold-downs."""
    (left, right), height = ends, sled.fence_height
    top = [(right, 0.0), (right, height), (left, height), (left, 0.0)]
    plate = Plate(plan, with_tabs(top, sorted(sled.tabs), sled.sheet), holes)
    plate.letter(*says, "FOOT ↓", *SAW_CAUTION)
    plate.gap("foot to top", height, (left + 2, 0.0), ((left + right) / 2, height), "differ")
    return plate.part(
        name,
        "what the wood leans on, on both sides of the blade",
        making=("Press it to the walls of its slots that are away from the wood.",),
        free=(FreeEdge(((left + right) / 2, height), 2.0, HIGHER),),
    )


def exit_block(
    plan: Plan, name: str, sides: tuple[float, float, float, float], height: float,
    lines: Sequence[Line] = (), making: Sequence[str] = (),
) -> Part:  # fmt: skip
    """One layer of what the blade runs out into, behind work of a height."""
    plate = Plate(plan, rectangle(*sides))
    plate.marks += lines
    plate.letter("EXIT BLOCK", "BLADE INSIDE", "NO SCREWS", titled=bool(lines))
    layers = ceil((height + 15) / plan.job.workshop.boards.sheet)
    return plate.part(
        name,
        "the blade ends every cut inside it",
        quantity=layers,
        stack=layers,
        making=making,
        free=exit_block_free(plate.outline.bounds),
    )


def exit_block_free(bounds: tuple[float, float, float, float]) -> tuple[FreeEdge, ...]:
    """All sides of an exit block but the one that it is glued by, which is the upper one."""
    left, low, right, high = bounds
    x, y = (left + right) / 2, (low + high) / 2
    return tuple(FreeEdge(at, *BESIDE_BLOCK) for at in ((left, y), (right, y), (x, low)))


def runner(
    plan: Plan, name: str, low: float, high: float, over: Sequence[Contour],
    making: Sequence[str] = (), titled: bool = False,
) -> Part:  # fmt: skip
    """As long as its base from `low` to `high`, its holes below those `over` it."""
    wish, saw = plan.job.workshop.sled, plan.job.workshop.saw
    width, depth = saw.slot_width - wish.runner_play, saw.slot_depth - wish.runner_clearance
    plate = Plate(plan, rectangle(0.0, 0.0, high - low, width))
    for hole in over:
        plate.hole((hole.centroid[1] - low, width / 2), plan.job.fittings.screw_hole)
    plate.letter("RUNNER", titled=titled)
    middle = (high - low) / 2
    plate.gap("runner width", width, (middle, 0.0), (middle, width))
    return plate.part(
        name,
        "slides in the mitre slot, play on one side only",
        works_to=SCREWED,
        thickness=depth,
        material="hardwood",
        making=making,
    )


def slot(corners: Sequence[Point]) -> Contour:
    return polygon(list(corners)).ccw()
