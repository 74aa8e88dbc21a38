"""What holds each piece in each cut on the sleds for strips: contacts, hold-downs and where the blade acts.

One frame for a piece: x along the cut's normal away from the kept side, as on its sled; y away from the operator, z
up from the base. A hold-down presses where its pads are. Its pins are in the wood: they keep their place from moving
along the base, as long as the wood bears them.

Abrasive paper is glued to fence and feet on the carrier and the sled for flat rings, to the foot on the sled for
staves; to the base only on the sled for flat rings, since under a tilted blade it would raise the wood and so cut it
longer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import cos, inf, pi, sin, tan
from typing import TYPE_CHECKING

from geometry.hardware.hold_down import CLAMP, HOLD_WIDTH, MARGIN, PAPER_CLEAR, PIN_EDGE, pin_from
from geometry.plane.edges import Point
from geometry.records import Record, replace
from geometry.statics.contacts import Clamp, Contact, Load, Pin, Vector
from geometry.statics.holding import ABRASIVE, LOW_FRICTION, Holding, cutting_loads, hold
from jigs.stages.segments.layout import CarrierLayout

if TYPE_CHECKING:  # a job loads those that it has
    from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
    from jigs.stages.layup.layout.sled import LayupSledLayout
    from jigs.stages.layup.layout.trim import TrimSledLayout

DOWN: Vector = (0.0, 0.0, -1.0)
UP: Vector = (0.0, 0.0, 1.0)
OPERATOR: Vector = (0.0, -1.0, 0.0)
WOOD_BEARS = 60.0  # N/mm2, pressed by something small, a hard wood: from memory
PIN_BEARS = WOOD_BEARS * 1.0 / 2  # N, sideways: a point 1 mm wide at its top, 1 mm in the wood
PIN_DRIVEN = WOOD_BEARS * pi / 4  # N: what it takes to drive that point in


class HeldPiece(Record):
    """One piece in one cut."""

    what: str
    contacts: tuple[Contact, ...]
    clamps: tuple[Clamp, ...]
    loads: tuple[Load, ...]
    pins: tuple[Pin, ...] = ()

    def caged(self) -> Holding:
        """Without friction, and as if no pin tore the wood: whether anything is left free to move at all."""
        unlimited = [replace(pin, most=inf) for pin in self.pins]
        return hold(self.contacts, self.clamps, self.loads, pins=unlimited)

    @property
    def grip(self) -> float:
        """How many times the cut's force is held, by friction and by what wood bears under the pins.

        Forces and moments balance at once, every hold-down pressing with its least force.
        """
        return hold(self.contacts, self.clamps, self.loads, friction=LOW_FRICTION, pins=self.pins).margin


def held_down(
    what: str,
    contacts: Iterable[Contact],
    loads: tuple[Load, ...],
    pads: Sequence[Point],
    pins: Iterable[Point],
    top: float,
    friction: float = LOW_FRICTION,
) -> HeldPiece:
    """A piece under one hold-down, its force shared by the corners of its pads, and its pins in the wood's top.

    What drives the pins in does not rub. More pins than the force drives in go in less far: what they bear and what
    drives them both go by the square of their depth.
    """
    points = list(dict.fromkeys(pins))
    driven = min(1.0, CLAMP / (PIN_DRIVEN * max(1, len(points))))
    share, rubs = (force / max(1, len(pads)) for force in (CLAMP, CLAMP - driven * PIN_DRIVEN * len(points)))
    clamps = (Clamp((x, y, top), DOWN, share, "hold-down", False, friction, rubs) for x, y in pads)
    return HeldPiece(
        what,
        tuple(contacts),
        tuple(clamps),
        loads,
        tuple(Pin((x, y, top), driven * PIN_BEARS) for x, y in points),
    )


def _ends(places: Sequence[float]) -> list[float]:
    """The first and the last."""
    return [places[0], places[-1]] if len(places) > 1 else [*places]


def lying(corners: Sequence[Vector], friction: float = LOW_FRICTION) -> tuple[Contact, ...]:
    """On the base."""
    return tuple(Contact(corner, UP, "base", friction) for corner in corners)


def carrier_pieces(layout: CarrierLayout) -> Iterator[HeldPiece]:
    """The segment, and the strip from which the last one is cut: longer ones have more to lie on.

    A block of a layup is one with the piece of rail that is glued to it.
    """
    wide, depth, lean = layout.width, layout.cut.depth, layout.lean
    outs = [out for out in layout.hold.pins if out < wide - PIN_EDGE]
    left, right = layout.segment_foot
    pin = left + pin_from(right - left)
    bottom = layout.stop - lean
    yield held_down(
        "segment on its carrier",
        (
            *lying([(0.0, y, 0.0) for y in (0.0, wide)] + [(bottom, y, 0.0) for y in (0.0, wide)]),
            *_papered(min(PAPER_CLEAR, bottom / 2), bottom, depth),
        ),
        _cut([(0.0, 0.0), (-lean, depth)], (0.0, wide)),
        [(x, y) for x in (left, right) for y in _ends(outs)],
        [(pin, out) for out in outs],
        depth,
        ABRASIVE,
    )
    slant = layout.cut.kerf / cos(layout.cut.tilt)
    end, feet = layout.strip_feet[0], layout.strip_feet
    yield held_down(
        "strip on its carrier",
        (
            *lying([(x, y, 0.0) for x in (end, -slant) for y in (0.0, wide)]),
            *_papered(end, -slant - lean - PAPER_CLEAR, depth),
        ),
        _cut([(-slant, 0.0), (-slant - lean, depth)], (0.0, wide)),
        [(x, y) for x in feet for y in _ends(outs)],
        [(foot, out) for foot in _strip_pins(feet, layout.sheet) for out in outs],
        depth,
        ABRASIVE,
    )


def _strip_pins(feet: tuple[float, float], sheet: float) -> tuple[float, float]:
    """x of the pins in both fingers on a strip that runs towards -x; in each nearer its side away from the blade."""
    return (feet[0] + sheet - pin_from(sheet), feet[1] - pin_from(sheet))


def _papered(start: float, end: float, depth: float) -> tuple[Contact, ...]:
    """On the carrier's fence."""
    return tuple(Contact(place, (0.0, 1.0, 0.0), "fence", ABRASIVE) for place in _face(start, end, depth))


def _face(start: float, end: float, height: float) -> Iterator[Vector]:
    for x in (start, end):
        for z in (0.0, height):
            yield (x, 0.0, z)


def _cut(line: Sequence[tuple[float, float]], along: tuple[float, float]) -> tuple[Load, ...]:
    """Loads at the corners of a face that is sawn: `line` is (x, z) at its foot and its top."""
    places = [(f"{z:.0f} up", (x, y, z)) for x, z in line for y in along]
    return cutting_loads(places, DOWN, OPERATOR)


def flat_pieces(
    layout: PlanAngleLayout, outer_edge: float, inner_edge: float, depth: float, height: float
) -> Iterator[HeldPiece]:
    """Segment and strip of one ring, on the far fence and on the near one; the strip is that of the last cut."""
    for side, where in ((1, "far"), (-1, "near")):
        yield _flat_segment(
            layout, side, (outer_edge, inner_edge, depth, height), f"segment on the {where} fence"
        )
        yield _flat_strip(layout, side, depth, height, f"strip on the {where} fence")


def _flat_segment(
    layout: PlanAngleLayout, side: int, size: tuple[float, float, float, float], what: str
) -> HeldPiece:
    """No fence reaches beyond the blade: base, press and its pins are all that holds it."""
    outer, inner, depth, height = size
    across, c, s = depth / cos(layout.mitre), cos(layout.mitre), sin(layout.mitre)
    bare = min(PAPER_CLEAR, inner * c / 2)
    start = layout.opening / 2
    inner_at = start - across
    plan = [
        (0.0, start), (outer * c, start - outer * s), (inner * c, inner_at - inner * s), (0.0, inner_at),
    ]  # fmt: skip
    left, right = layout.press_foot
    pins = [p for p in layout.press_pin_places if _inside(plan, (layout.press_pins, side * p))]
    edges = [_span(plan, x) for x in (left, min(right, outer * c))]
    reach = [(max(low, -layout.span), min(high, layout.span)) for low, high in edges if high > low]
    presses = [(x, side * y) for x, span in zip((left, right), reach, strict=False) for y in span]
    return held_down(
        what,
        lying([(max(bare, x), side * (y - max(0.0, bare - x) * s / c), 0.0) for x, y in plan], ABRASIVE),
        _cut([(0.0, 0.0), (0.0, height)], (side * start, side * inner_at)),
        presses,
        [(layout.press_pins, p) for p in pins],
        height,
        ABRASIVE,
    )


def _span(plan: Sequence[Point], x: float) -> tuple[float, float]:
    """y of the lowest and the highest place of a convex outline at x."""
    ys = []
    for (x0, y0), (x1, y1) in zip(plan, [*plan[1:], plan[0]], strict=True):
        if min(x0, x1) <= x <= max(x0, x1) and x0 != x1:
            ys.append(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    return (min(ys), max(ys)) if ys else (inf, -inf)


def _inside(plan: Sequence[Point], place: Point) -> bool:
    """Whether a pin is in the wood, which is drawn for the far fence, with some wood round it."""
    x, y = place
    low, high = _span(plan, x)
    return low + PIN_EDGE <= y <= high - PIN_EDGE and all(
        _span(plan, x + d)[0] <= y <= _span(plan, x + d)[1] for d in (-PIN_EDGE, PIN_EDGE)
    )


def _flat_strip(layout: PlanAngleLayout, side: int, depth: float, height: float, what: str) -> HeldPiece:
    start, sheet = layout.fence_start + MARGIN, layout.sheet
    far = start + HOLD_WIDTH
    outs = [out for out in layout.hold.pins if out < depth - PIN_EDGE]
    alongs = (start + pin_from(sheet), far - sheet + pin_from(sheet))
    kerf = layout.kerf / cos(layout.mitre)
    ends = [(kerf, 0.0), (far, 0.0), (far, depth), (kerf - depth * tan(layout.mitre), depth)]
    corners = [layout.fence(side, along, -out) for along, out in ends]
    bare = PAPER_CLEAR / cos(layout.mitre)
    on_paper = [layout.fence(side, along if along == far else along + bare, -out) for along, out in ends]
    normal = _across(layout, side)
    return held_down(
        what,
        (
            *lying([(x, y, 0.0) for x, y in on_paper], ABRASIVE),
            *(
                Contact((x, y, z), normal, "fence", ABRASIVE)
                for x, y in (layout.fence(side, layout.fence_start), layout.fence(side, far))
                for z in (0.0, height)
            ),
        ),
        _cut([(-layout.kerf, 0.0), (-layout.kerf, height)], (corners[0][1], corners[3][1])),
        [layout.fence(side, along, -out) for along in (start, far) for out in _ends(outs)],
        [layout.fence(side, along, -out) for along in alongs for out in outs],
        height,
        ABRASIVE,
    )


def _across(layout: PlanAngleLayout, side: int) -> Vector:
    """From a fence's face into the strip."""
    (x0, y0), (x1, y1) = layout.fence(side, 0.0), layout.fence(side, 0.0, -1.0)
    return (x1 - x0, y1 - y0, 0.0)


def layup_pieces(layout: LayupSledLayout) -> Iterator[HeldPiece]:
    """The slab, and the stack from which the last one is cut."""
    tall, stack, at, foot = layout.height, layout.stack, layout.beside_blade, layout.slab_foot
    into: Vector = (-cos(layout.angle), sin(layout.angle), 0.0)
    slab = [at(0.0, 0.0), at(layout.width, 0.0), at(layout.width, stack), at(0.0, stack)]
    presses = [at(x, out) for x in (foot.left, foot.left + foot.width) for out in foot.out]
    yield held_down(
        "slab on the layup sled",
        (
            *lying([(x, y, 0.0) for x, y in slab]),
            *(Contact((x, y, z), into, "fence") for x, y in slab[:2] for z in (0.0, tall)),
        ),
        _cut([(0.0, 0.0), (0.0, tall)], (slab[0][1], slab[3][1])),
        presses,
        [(x, y) for x, y in layout.slab_pins if x <= layout.width - PIN_EDGE],
        tall,
    )
    near, far = layout.stack_feet
    outs = [out for out in layout.hold.pins if out < stack - PIN_EDGE]
    alongs = (near + pin_from(layout.sheet), far - layout.sheet + pin_from(layout.sheet))
    cut = [at(-layout.kerf, 0.0), at(-layout.kerf, stack)]
    tail = [layout.place(far, 0.0), layout.place(far, stack)]
    yield held_down(
        "stack on the layup sled",
        (
            *lying([(x, y, 0.0) for x, y in (*cut, *tail)]),
            *(Contact((x, y, z), into, "fence") for x, y in (cut[0], tail[0]) for z in (0.0, tall)),
        ),
        _cut([(-layout.kerf, 0.0), (-layout.kerf, tall)], (cut[0][1], cut[1][1])),
        [layout.place(along, out) for along in (near, far) for out in _ends(outs)],
        [layout.place(along, out) for along in alongs for out in outs],
        tall,
    )


def trim_pieces(layout: TrimSledLayout) -> Iterator[HeldPiece]:
    """A piece with either of its sides trimmed: the other one lies against the fence. The stop stands behind it."""
    for long, deep, what in (
        (layout.length, layout.width, "piece on the trim sled"),
        (layout.width, layout.length, "piece on the trim sled, turned"),
    ):
        yield _trimmed(layout, long, deep, what)


def _trimmed(layout: TrimSledLayout, long: float, deep: float, what: str) -> HeldPiece:
    tall, (left, right) = layout.height, layout.foot
    pin = right - pin_from(right - left)
    outs = [out for out in layout.hold.pins if out < deep - PIN_EDGE]
    return held_down(
        what,
        (
            *lying([(x, y, 0.0) for x in (-long, 0.0) for y in (0.0, deep)]),
            *(Contact(place, (0.0, 1.0, 0.0), "fence") for place in _face(-long, 0.0, tall)),
        ),
        _cut([(0.0, 0.0), (0.0, tall)], (0.0, deep)),
        [(max(x, -long), out) for x in (left, right) for out in _ends(outs)],
        [(pin, out) for out in outs],
        tall,
    )
