"""The vessel's section in its rings: each in its woods' colours, pale where it is turned away."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan, atan2, ceil, cos, sin

from geometry.plane.contour import Contour
from geometry.records import replace
from jigs.figures.colours import colour_of
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Point, Shape, arc_of, area, line, polygon
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_rule
from jigs.figures.turning.vessel import both
from jigs.plans.vessel import VesselPlan
from jigs.stages.stack.plan import Layer

PAPER = (230.0, 150.0)  # mm
PALE = 0.35  # opacity of wood that is turned away
CHORD = 0.1  # radians of an arc to a straight piece
LONG = 44  # letters of woods beside a ring
PAST = 3.0  # mm of the axis past the stack
KINDS = {"disc": "disc", "open": "{} open", "staves": "{} staves", "segments": "{} segments"}


def stack_figure(plan: VesselPlan, show: Show) -> Figure:
    """Both sides of the axis: the words of each ring stand beside it."""
    stack, wood = plan.stack, [piece for layer in plan.stack.layers for piece in _wood(plan, layer)]
    high = plan.section.height
    return Figure(
        "rings",
        f"{plan.job.title}: its section in its rings",
        "The stack cut through the axis, each ring in its woods' colours: full where it stays, pale where it is turned "
        "away. Ring 1 is the one at the faceplate.",
        (
            *(replace(piece, opacity=PALE) for piece in wood),
            *(kept for layer in stack.layers for kept in _kept(plan, layer)),
            *_floating(plan),
            *(area(half) for half in both(plan.section.contour)),
            line((0.0, stack.bottom - PAST), (0.0, stack.top + PAST), dashes=CENTRE_LINE),
            Dimension((stack.largest_radius, 0.0), (stack.largest_radius, high), by_rule(show, high), -7.0),
            *(_told(plan, layer, show) for layer in stack.layers),
        ),
        *PAPER,
    )


def _wood(plan: VesselPlan, layer: Layer) -> tuple[Shape, Shape]:
    """Through the flats of the first segment and the one opposite; staves lean."""
    first, second = (
        replace(area(half), stroke="grey", fill="wood", colour=colour)
        for half, colour in zip(_sides(plan.stack.cut_through(layer)), _colours(plan, layer), strict=True)
    )
    return first, second


def _kept(plan: VesselPlan, layer: Layer) -> Iterator[Shape]:
    """What the finished vessel has of a layer, on either side."""
    low, high = layer.ring.bottom, layer.ring.top
    for half, colour in zip(_sides(plan.section.contour), _colours(plan, layer), strict=True):
        points = _below(_below(_points(half), high, 1.0), low, -1.0)
        if points:
            yield replace(polygon(points, fill="wood", stroke=None), colour=colour)


def ring_section(plan: VesselPlan, layer: Layer) -> tuple[Shape, ...]:
    """One layer alone, right of the axis: pale where it is turned away."""
    wood, _ = _wood(plan, layer)
    kept = (replace(piece, stroke="ink") for piece in _kept(plan, layer) if piece.box[2] > 0.0)
    return replace(wood, opacity=PALE), *kept


def _sides(right: Contour) -> tuple[Contour, Contour]:
    """Each has its own wood."""
    return right, right.mirrored()


def _points(contour: Contour) -> list[Point]:
    """Along a contour, its arcs in chords."""
    found: list[Point] = []
    rows = contour.vertices.tolist()
    for a, b in pairwise([*rows, rows[0]]):
        found.append((a[0], a[1]))
        if a[2]:
            (x, y), radius = arc_of((a[0], a[1], a[2]), (b[0], b[1], b[2]))
            start, turn = atan2(a[1] - y, a[0] - x), 4 * atan(a[2])
            count = ceil(abs(turn) / CHORD)
            turns = (start + turn * k / count for k in range(1, count))
            found += [(x + radius * cos(t), y + radius * sin(t)) for t in turns]
    return found


def _below(points: Sequence[Point], level: float, way: float) -> list[Point]:
    """What of a polygon lies below a level, or above it where `way` is -1 (Sutherland and Hodgman's way)."""
    found: list[Point] = []
    for a, b in pairwise([*points, *points[:1]]):
        over_a, over_b = way * (a[1] - level), way * (b[1] - level)
        if over_a <= 0:
            found.append(a)
        if over_a * over_b < 0:
            share = over_a / (over_a - over_b)
            found.append((a[0] + share * (b[0] - a[0]), level))
    return found


def _floating(plan: VesselPlan) -> list[Item]:
    """The disc of a floating base, with the room round it."""
    disc = plan.stack.floating
    if disc is None:
        return []
    base, low = disc.base, disc.base.ledge
    top = low + base.tongue_thickness
    wood = [(base.tongue, low), (base.tongue, top), (base.field, top), (base.field, base.floor)]
    return [
        _across([(base.groove, low), (base.groove, base.joint)]),
        _across([(base.opening, low), (base.opening, base.floor)]),
        replace(_across(wood), fill="wood", colour=_colour(disc.species)),
    ]


def _across(right: Sequence[Point]) -> Shape:
    """From these corners on the right to their mirror images."""
    return polygon([*right, *((-x, y) for x, y in reversed(right))], fill="paper", stroke="grey")


def _colours(plan: VesselPlan, layer: Layer) -> tuple[str, str]:
    """Of the first segment and of the one opposite; of a layup its first ply and the next."""
    layup = plan.job.layup
    if layup and layer.plied(layup):
        plies = (layup.plies[0], layup.plies[1 % len(layup.plies)])
        one, other = (ply.colour or _colour(ply.name) for ply in plies)
        return one, other
    return _colour(layer.species[0]), _colour(layer.species[len(layer.species) // 2])


def _colour(wood: str) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour_of(wood))


def _told(plan: VesselPlan, layer: Layer, show: Show) -> Callout:
    """What it is and its sizes, on the left: no line to it crosses the height on the right."""
    ring = layer.ring
    kind = "upright" if layer.upright else KINDS[layer.kind].format(ring.segments)
    woods = "layup" if layer.plied(plan.job.layup) else _woods(list(dict.fromkeys(layer.species)))
    sizes = f"{by_rule(show, ring.height)} high, {by_rule(show, 2 * ring.outer)} across"
    middle, out = (ring.bottom + ring.top) / 2, float(plan.stack.cut_through(layer).points[1:3, 0].mean())
    return Callout(f"ring {layer.number}: {kind}, {woods}; {sizes}", (-out, middle), "left")


def _woods(names: list[str]) -> str:
    """All of them, or the first and how many more."""
    told = ", ".join(names)
    return told if len(told) <= LONG else f"{names[0]} and {len(names) - 1} more woods"
