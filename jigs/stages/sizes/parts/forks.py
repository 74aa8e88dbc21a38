"""Size gauges: width forks, a stick across the rim and sticks across the hole, with one step for each stage.

Forks: x outward from the torus axis, y away from the board, the tube's centre is the origin when the last
step has reached it. Hole sticks: the same, but x from the torus axis. Outer stick: the torus axis is the
origin, seen from the front.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import asin, pi, sqrt

from geometry.lathe.size_gauges import BAND, PAST, reach, step_lengths
from geometry.plane.contour import Contour
from geometry.plane.contour import outline as contour
from geometry.plane.edges import bulge_about
from geometry.readback.free_edge import FreeEdge
from geometry.records import replace
from jigs.parts.codes import code_of
from jigs.parts.coding import settled
from jigs.parts.part import Dimension, Lettering, Part, Point
from jigs.parts.places import MARGIN, block_height, block_width, centred, hang_hole, lettered
from jigs.parts.plate import closed, cut_part
from jigs.parts.probes import ArcRadius, EdgeGap
from jigs.plans.torus import TorusPlan
from jigs.stages.sizes.plan.torus import SizesPlan, SizeStage

TEXT = 4.0  # cap height
STEP_TEXT = 4.0
HANDLE = 60.0  # width of the hole stick's handle
ABOVE_CENTRE = 12.0  # of the hole stick's last step
HANG_ROOM = 12.0
WRAPPED = 10.0  # more of a handle whose text has to be broken into more rows
HIGHER, LOWER, LESS = (
    20.0,
    0.3,
    3.0,
)  # mm that a fork's bridge may lie elsewhere; of its back, that may be missing
LEAST_STICK = 30.0  # width of the outer stick
Block = tuple[Sequence[str], Point]  # rows of text and where they are wanted
CAUTION = "LATHE STOPPED, REST AWAY"
SAME_PLATE = "Make it exactly as thick as drawn: its steps allow for it."


def sizes(plan: TorusPlan) -> list[Part]:
    """Forks, the outer stick, hole sticks."""
    many = len(plan.sizes.groups) > 1
    forks, sticks = (
        [make(plan, group, f"-{k}" if many else "") for k, group in enumerate(plan.sizes.groups, 1)]
        for make in (width_fork, hole_stick)
    )
    return [*forks, outer_stick(plan), *sticks]


def _floors(group: Sequence[SizeStage]) -> list[float]:
    """The height at which each step begins, the first at the tips."""
    tubes = [stage.tube for stage in group]
    heights = [-reach(tubes)]
    for length in step_lengths(tubes):
        heights.append(heights[-1] + length)
    return heights


def _rows(
    plan: TorusPlan, what: str, group: Sequence[SizeStage], values: Sequence[float], sign: str
) -> list[str]:
    sized = [
        f"{stage.number}: {stage.label}, {sign}{plan.job.show(value, exact=True)}".upper()
        for stage, value in zip(group, values, strict=True)
    ]
    return [plan.job.title.upper(), what, *sized, CAUTION]


def _number(stage: SizeStage, x: float, y: float) -> Lettering:
    return centred(str(stage.number), (x, y), STEP_TEXT)


def _middles(floors: Sequence[float]) -> list[float]:
    """A height within each step, the last one's near its foot."""
    return [(low + high) / 2 for low, high in zip(floors, [*floors[1:], PAST], strict=True)]


def width_fork(plan: TorusPlan, group: Sequence[SizeStage], suffix: str) -> Part:
    """Slides over the tube from the front; a step goes on when its size is reached."""
    name = f"width-fork{suffix}"
    rows = _rows(
        plan, f"{code_of(name)} WIDTH FORK ← HOLE SIDE", group, [2 * stage.tube.wide for stage in group], ""
    )
    outline = _fork_outline(plan.sizes, group, rows)
    leg, (_, _, right, top) = group[0].tube.wide + plan.sizes.leg / 2, outline.bounds
    middles, inner = _middles(_floors(group)), [_inner(stage) for stage in group]
    numbers = [_number(stage, leg, y) for stage, y in zip(group, middles, strict=True)]
    fork = _plate(
        plan,
        name,
        "width of the tube, reached in from the front",
        outline,
        [(rows, (0.0, top))],
        (right, top),
        numbers,
        [
            Dimension(
                f"gap {stage.number}, {stage.label.lower()}", stage.tube.wide - x, _gap(stage.tube.wide, x, y)
            )
            for stage, x, y in zip(group, inner, middles, strict=True)
        ],
        (
            "Put the leg on the hole side through the hole, the plate along the axis. When a step passes the widest "
            "place, the tube has reached that size; the next shoulder then rests on the wood.",
            f"Each gap is about {plan.job.show(group[-1].chord, exact=True)} wider than its tube: the "
            "flat leg touches the hollow of the hole with its two corners only.",
        ),
    )
    return replace(fork, free=_bridge_free(outline, plan.sizes.above, plan.sizes.leg))


def _bridge_free(outline: Contour, above: float, leg: float) -> tuple[FreeEdge, ...]:
    """The bridge, which clears the blank's front by more than it has to, and what stands up from it."""
    edges = [edge for edge in outline.edges() if edge.midpoint[1] > above - 1e-6 and edge.length > leg / 2]
    lower = [edge for edge in edges if abs(edge.midpoint[1] - above) < 1e-6]
    return (
        *(FreeEdge(edge.midpoint, HIGHER, LOWER) for edge in lower),
        *(FreeEdge(edge.midpoint, LESS, HIGHER) for edge in edges if edge not in lower),
    )


def _inner(stage: SizeStage) -> float:
    """Where the leg in the hole bears."""
    return -stage.tube.wide - stage.chord


def _fork_outline(size: SizesPlan, group: Sequence[SizeStage], rows: Sequence[str]) -> Contour:
    """Two legs and a bridge; the bridge stands out over the rim where its text needs that."""
    floors = _floors(group)
    levels = list(zip(floors, [*floors[1:], size.above], strict=True))
    left, leg = _inner(group[0]) - size.leg, group[0].tube.wide + size.leg
    right, top = max(leg, left + _wide(rows)), size.above + max(_tall(rows), HANG_ROOM)
    hollow = [(_inner(stage), y) for stage, level in zip(group, levels, strict=True) for y in level]
    rim = [(stage.tube.wide, y) for stage, level in zip(group, levels, strict=True) for y in level]
    overhang = [(leg, size.above), (right, size.above)] if right > leg + 1 else []
    right = right if overhang else leg
    foot = floors[0]
    return closed([(left, foot), *hollow, *reversed(rim), (leg, foot), *overhang, (right, top), (left, top)])


def _gap(outer: float, inner: float, y: float) -> EdgeGap:
    return EdgeGap((outer, y), (inner, y))


def hole_stick(plan: TorusPlan, group: Sequence[SizeStage], suffix: str) -> Part:
    """Enters the hole from the front as far as the step whose size is reached."""
    name = f"hole-stick{suffix}"
    rows = _rows(plan, f"{code_of(name)} HOLE STICK", group, [2 * stage.hole for stage in group], "Ø")
    halves, floors = [stage.hole - stage.chord for stage in group], _floors(group)
    handle = min(max(HANDLE, _wide(rows)) / 2, halves[0])
    top = plan.sizes.above + _tall(rows) + (WRAPPED if handle < _wide(rows) / 2 else 0.0)
    levels = zip(halves, floors, [*floors[1:], ABOVE_CENTRE], strict=True)
    side = [(x, y) for x, low, high in levels for y in (low, high)] + [(handle, ABOVE_CENTRE), (handle, top)]
    outline = closed([*side, *((-x, y) for x, y in reversed(side))])
    middles = _middles(floors)
    numbers = [_number(stage, halves[0] - 6, y) for stage, y in zip(group, middles, strict=True)]
    return _plate(
        plan,
        name,
        "diameter of the hole, entered from the front",
        outline,
        [(rows, (0.0, top))],
        (handle, top),
        numbers,
        [
            Dimension(f"step {stage.number}, {stage.label.lower()}", 2 * x, _gap(x, -x, y))
            for stage, x, y in zip(group, halves, middles, strict=True)
        ],
        (
            "Hold it along the axis, square across the hole: when a step goes in, the hole has reached that size.",
            f"Each step is about {plan.job.show(2 * group[-1].chord, exact=True)} shorter than its hole: "
            "a plate this thick touches with its corners.",
        ),
        (SAME_PLATE,),
    )


def outer_stick(plan: TorusPlan) -> Part:
    """Lies across the front; its ends are arcs about the axis, a step beside another."""
    stages = plan.sizes.stages
    band = max(BAND, LEAST_STICK / len(stages))
    levels = [band * (k - len(stages) / 2) for k in range(len(stages) + 1)]
    reach = stages[-1].outer
    name, what, *sized, caution = _rows(
        plan, f"{code_of('outer-stick')} OUTER STICK", stages, [2 * s.outer for s in stages], "Ø"
    )
    numbers = [
        _number(stage, side * (0.98 * reach - 8), level + band / 2)
        for side in (1, -1)
        for stage, level in zip(stages, levels, strict=False)
    ]
    return _plate(
        plan,
        "outer-stick",
        "diameter across the rim, sighted from the front",
        _stick_outline([stage.outer for stage in stages], levels),
        [((name, what, caution), (-reach / 2, 0.0)), (sized, (reach / 2, 0.0))],
        (reach / 5, levels[-1]),
        numbers,
        [
            dimension
            for stage, low in zip(stages, levels, strict=False)
            for dimension in _end_arcs(stage, low, low + band)
        ],
        (
            "Lay it flat on the front, across the middle, and sight along the axis at both ends: the step of "
            "the stage runs along the rim on both.",
            "It is a sight, not a stop: the width fork and a measured diameter have the last word.",
        ),
    )


def _stick_outline(radii: Sequence[float], levels: Sequence[float]) -> Contour:
    """From the lower right corner up the right end and down the left one."""
    ends = [
        ((sqrt(radius**2 - low**2), low), (sqrt(radius**2 - high**2), high))
        for radius, low, high in zip(radii, levels, levels[1:], strict=False)
    ]
    right = [v for a, b in ends for v in ((*a, bulge_about((0.0, 0.0), a, b)), (*b, 0.0))]
    mirrored = [((-b[0], b[1]), (-a[0], a[1])) for a, b in reversed(ends)]
    left = [v for a, b in mirrored for v in ((*a, bulge_about((0.0, 0.0), a, b)), (*b, 0.0))]
    return contour(*right, *left)


def _end_arcs(stage: SizeStage, low: float, high: float) -> list[Dimension]:
    inset = (high - low) / 20  # keeps clear of the neighbouring steps' sides
    start, end = asin((low + inset) / stage.outer), asin((high - inset) / stage.outer)
    name = f"radius {stage.number}, {stage.label.lower()}"
    return [
        Dimension(f"{name}, right", stage.outer, ArcRadius((0.0, 0.0), start, end)),
        Dimension(f"{name}, left", stage.outer, ArcRadius((0.0, 0.0), pi - end, pi - start)),
    ]


def _wide(rows: Sequence[str]) -> float:
    return block_width(rows, TEXT) + 2 * MARGIN + HANG_ROOM


def _tall(rows: Sequence[str]) -> float:
    return block_height(rows, TEXT) + 2 * MARGIN + 4.0


def _plate(
    plan: TorusPlan, name: str, purpose: str, outline: Contour, blocks: Sequence[Block], corner: Point,
    numbers: Sequence[Lettering], dimensions: Sequence[Dimension], notes: Sequence[str],
    making: Sequence[str] = (),
) -> Part:  # fmt: skip
    """The plate with its hanging hole near `corner`, and each block of text near its place."""
    hole, size = hang_hole(outline, (), corner), plan.sizes.plate
    part = cut_part(
        plan, name, purpose, outline, (hole,), numbers, dimensions, notes, thickness=size, making=making
    )
    together = [row for rows, _ in blocks for row in rows]
    apart, one = (
        tuple(words for rows, near in ways for words in lettered(outline, (hole,), (), rows, near, TEXT))
        for ways in (blocks, [(together, outline.centroid)])
    )
    roomy = settled(replace(part, words=apart), plan.job.title.upper())
    return replace(part, words=one if roomy.beside else apart)
