"""A part, or several in their places, as STEP in millimetres (ISO 10303-214).

An exact solid: a plate on z = 0, a turned part about z, a wedge of wood. Arcs are exact, marks are left out: text would
be nine tenths of a file.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan, cos, hypot, tan
from pathlib import Path

from geometry.plane.contour import Contour
from geometry.plane.edges import Edge
from geometry.records import Record
from jigs.files.step_entities import UP, Entities, Vector, cross, listed, quoted
from jigs.parts.assembly import Place
from jigs.parts.part import Part

CLOSE = 1e-7  # mm: as near as points are taken for one
WIDE = 2.0  # radians that one piece of a ruled surface may go round
ON_AXIS = 1e-7  # mm


class Level(Record):
    """A closed row of edges in the plane z = height + slope x; where it slopes all are straight."""

    edges: tuple[Edge, ...]
    height: float
    slope: float = 0.0

    def point(self, at: tuple[float, float]) -> Vector:
        return at[0], at[1], self.height + self.slope * at[0]

    def drawn(self, step: Entities) -> list[str]:
        return [_edge(step, self, edge) for edge in self.edges]


def body(step: Entities, part: Part) -> str:
    """The number of its solid. Raises ValueError for a part that is none."""
    if part.turned:
        from jigs.files.solid import turned_wedge

        return step.embedded(*turned_wedge(part))
    if part.process == "turn":
        return step.body(_turned(step, (part.outline.ccw(), *(hole.cw() for hole in part.holes))))
    if part.thickness <= 0:
        raise ValueError(f"{part.name}: has no thickness, so it is no solid")
    contours = (part.outline.ccw(), *(hole.cw() for hole in part.holes))
    return step.body(_plate(step, [_levels(part, contour) for contour in contours]))


def _levels(part: Part, contour: Contour) -> list[Level]:
    bevel = part.bevel if contour == part.outline else None
    if bevel:
        rows = [row for pair in _rows(contour, bevel.top) for row in _halved(*pair)]
        low, top = zip(*rows, strict=True)
        foot = [Level(low, 0.0)] if bevel.land else []
        return [*foot, Level(low, bevel.land), Level(top, part.thickness)]
    (edges,) = zip(*_rows(contour), strict=True)
    if part.wedge:
        return [Level(edges, 0.0, side * tan(part.wedge / 2)) for side in (-1, 1)]
    return [Level(edges, 0.0), Level(edges, part.thickness)]


def _rows(*contours: Contour) -> list[tuple[Edge, ...]]:
    """Edge by edge; where none is longer than points are near, the next begins at once."""
    rows = [
        row for row in zip(*map(Contour.edges, contours), strict=True) if max(e.chord for e in row) > CLOSE
    ]
    return [
        tuple(Edge(one.start, after.start, one.bulge) for one, after in zip(row, following, strict=True))
        for row, following in zip(rows, [*rows[1:], rows[0]], strict=True)
    ]


def _halved(low: Edge, high: Edge) -> Iterator[tuple[Edge, Edge]]:
    """The same in pieces that a ruled surface spans."""
    if max(abs(low.angle), abs(high.angle)) < WIDE:
        yield low, high
        return
    for pair in zip(_halves(low), _halves(high), strict=True):
        yield from _halved(*pair)


def _halves(edge: Edge) -> tuple[Edge, Edge]:
    middle, bulge = edge.midpoint, tan(edge.angle / 8)
    return Edge(edge.start, middle, bulge), Edge(middle, edge.end, bulge)


# ---- plates
def _plate(step: Entities, stacks: Sequence[Sequence[Level]]) -> Iterator[str]:
    """Between its lowest levels and its highest: the outline counter-clockwise, then the holes the other way."""
    for levels in stacks:
        for low, high in pairwise(levels):
            yield from _walls(step, low, high)
    for k, side in ((0, -1.0), (-1, 1.0)):
        own = stacks[0][k]
        bounds = [[(edge, side > 0) for edge in levels[k].drawn(step)] for levels in stacks]
        plane = step.plane(own.point(own.edges[0].start), (-side * own.slope, 0.0, side))
        yield step.face(plane, bounds if side > 0 else [bound[::-1] for bound in bounds])


def _walls(step: Entities, low: Level, high: Level) -> Iterator[str]:
    pairs = list(zip(low.edges, high.edges, strict=True))
    posts = [step.edge(low.point(one.start), high.point(other.start)) for one, other in pairs]
    rows = zip(low.drawn(step), high.drawn(step), posts, [*posts[1:], posts[0]], pairs, strict=True)
    for below, above, post, following, (one, other) in rows:
        surface, outward = _wall(step, low, high, one, other)
        yield step.face(surface, [[(below, True), (following, True), (above, False), (post, False)]], outward)


def _wall(step: Entities, low: Level, high: Level, one: Edge, other: Edge) -> tuple[str, bool]:
    """The surface between two edges, and whether its own normal points out of the wood."""
    start, way, over = low.point(one.start), _way(one), _way(other)
    if one.is_arc and one == other:
        return step.surface("CYLINDRICAL_SURFACE", low.point(one.centre), one.radius), one.bulge > 0
    if not (one.is_arc or other.is_arc) and abs(way[0] * over[1] - way[1] * over[0]) < CLOSE * hypot(*way):
        rise = tuple(b - a for a, b in zip(start, high.point(other.start), strict=True))
        return step.plane(start, cross(way, (rise[0], rise[1], rise[2]))), True
    ends = ((low, one), (high, other))
    rows = [[(level.point(at), weight) for at, weight in _control(edge)] for level, edge in ends]
    return step.ruled(*rows), True


def _way(edge: Edge) -> Vector:
    return edge.end[0] - edge.start[0], edge.end[1] - edge.start[1], 0.0


def _control(edge: Edge) -> list[tuple[tuple[float, float], float]]:
    """The Bézier points of an arc of less than half a turn, with their weights; of a line its middle between."""
    (x, y), (dx, dy, _), out = edge.start, _way(edge), tan(edge.angle / 2) / 2
    return [
        (edge.start, 1.0),
        ((x + dx / 2 + out * dy, y + dy / 2 - out * dx), cos(edge.angle / 2)),
        (edge.end, 1.0),
    ]


def _edge(step: Entities, level: Level, edge: Edge) -> str:
    start, end = level.point(edge.start), level.point(edge.end)
    if not edge.is_arc:
        return step.edge(start, end)
    axis = (0.0, 0.0, 1.0 if edge.bulge > 0 else -1.0)
    return step.edge(start, end, step.circle(level.point(edge.centre), edge.radius, axis))


# ---- turned parts
def _turned(step: Entities, section: Sequence[Contour]) -> Iterator[str]:
    """Two halves of each surface, from the half plane y = 0, x > 0 round to the other and on."""
    for contour in section:
        for (edge,) in _rows(contour):
            if max(edge.start[0], edge.end[0]) > ON_AXIS or edge.is_arc:
                surface, outward = _round(step, edge)
                for side in (1.0, -1.0):
                    yield step.face(surface, [_half(step, edge, side)], outward)


def _half(step: Entities, edge: Edge, side: float) -> list[tuple[str, bool]]:
    """The bound of what the edge sweeps from that side of the axis to the other; none of it where it meets the axis."""
    rounds = [
        step.edge((side * r, 0.0, z), (-side * r, 0.0, z), step.circle((0.0, 0.0, z), r))
        if r > ON_AXIS
        else ""
        for r, z in (edge.start, edge.end)
    ]
    here, there = _meridian(step, edge, side), _meridian(step, edge, -side)
    bound = [(rounds[0], True), (there, True), (rounds[1], False), (here, False)]
    return [(one, along) for one, along in bound if one]


def _meridian(step: Entities, edge: Edge, side: float) -> str:
    start, end = ((side * r if r > ON_AXIS else 0.0, 0.0, z) for r, z in (edge.start, edge.end))
    return step.edge(start, end, _meridian_arc(step, edge, side) if edge.is_arc else "")


def _meridian_arc(step: Entities, edge: Edge, side: float) -> str:
    x, z = edge.centre
    axis = (0.0, -side if edge.bulge > 0 else side, 0.0)
    return step.circle((side * x, 0.0, z), edge.radius, axis, (side, 0.0, 0.0))


def _round(step: Entities, edge: Edge) -> tuple[str, bool]:
    """The surface that an edge sweeps about z, and whether its own normal points out of the wood."""
    (r, z), (end, top) = edge.start, edge.end
    if edge.is_arc:
        x, y = edge.centre
        if x > edge.radius:
            return step.surface("TOROIDAL_SURFACE", (0.0, 0.0, y), x, edge.radius), edge.bulge > 0
        return step.revolved(_meridian_arc(step, edge, 1.0)), True
    if abs(top - z) < CLOSE:
        return step.plane((0.0, 0.0, z), (0.0, 0.0, 1.0 if end < r else -1.0)), True
    if abs(end - r) < CLOSE:
        return step.surface("CYLINDRICAL_SURFACE", (0.0, 0.0, z), r), top > z
    wider = (end > r) == (top > z)
    half = atan(abs((end - r) / (top - z)))
    origin = (0.0, 0.0, z)
    return step.surface("CONICAL_SURFACE", origin, r, half, axis=UP if wider else (0.0, 0.0, -1.0)), top > z


FRAME = """ISO-10303-21;
HEADER;
FILE_DESCRIPTION((''),'2;1');
FILE_NAME({name},'2000-01-01T00:00:00',(''),(''),'turning-jigs','turning-jigs','');
FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));
ENDSEC;
DATA;
{data}ENDSEC;
END-ISO-10303-21;
"""  # the date is the same in every run
ORIGIN: Vector = (0.0, 0.0, 0.0)


def write_step(part: Part, file: Path) -> None:
    """Write a part: the same part, the same bytes. Raises as `body` does."""
    step = Entities()
    _part(step, part)
    _write(step, _called(part), file)


def write_assembly(name: str, members: Sequence[tuple[Part, Place]], file: Path) -> None:
    """Write parts in their places, each part once. Raises as `body` does."""
    step = Entities()
    bodies = {part.name: _part(step, part) for part in {part.name: part for part, _ in members}.values()}
    places = [step.placement(place.origin, cross(place.x, place.y), place.x) for _, place in members]
    origin = step.placement(ORIGIN)
    whole, shape = _product(step, name, "SHAPE_REPRESENTATION", [origin, *places])
    for k, ((part, _), place) in enumerate(zip(members, places, strict=True)):
        own, own_shape = bodies[part.name]
        called = quoted(_called(part))
        used = step.add(f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('{k + 1}',{called},'',{whole},{own},$)")
        defined = step.add(f"PRODUCT_DEFINITION_SHAPE('','',{used})")
        move = step.add(f"ITEM_DEFINED_TRANSFORMATION('','',{origin},{place})")
        relation = step.add(
            f"(REPRESENTATION_RELATIONSHIP('','',{own_shape},{shape})"
            f"REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION({move})SHAPE_REPRESENTATION_RELATIONSHIP())",
            k + 1,
        )
        step.add(f"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({relation},{defined})")
    _write(step, name, file)


def _called(part: Part) -> str:
    return f"{part.code} {part.name}"


def _part(step: Entities, part: Part) -> tuple[str, str]:
    solid = body(step, part)
    kind = "ADVANCED_BREP_SHAPE_REPRESENTATION"
    return _product(step, _called(part), kind, [step.placement(ORIGIN), solid])


def _product(step: Entities, name: str, kind: str, items: Sequence[str]) -> tuple[str, str]:
    """A product's definition and its shape."""
    called, add = quoted(name), step.add
    context = add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')")
    add(f"APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,{context})")
    mechanical = add(f"PRODUCT_CONTEXT('',{context},'mechanical')")
    product = add(f"PRODUCT({called},{called},'',({mechanical}))")
    add(f"PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))")
    formation = add(f"PRODUCT_DEFINITION_FORMATION('','',{product})")
    design = add(f"PRODUCT_DEFINITION_CONTEXT('part definition',{context},'design')")
    definition = add(f"PRODUCT_DEFINITION('design','',{formation},{design})")
    defined = add(f"PRODUCT_DEFINITION_SHAPE('','',{definition})")
    shape = add(f"{kind}('',{listed(items)},{_units(step)})")
    add(f"SHAPE_DEFINITION_REPRESENTATION({defined},{shape})")
    return definition, shape


def _units(step: Entities) -> str:
    long = step.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
    angle = step.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
    solid = step.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
    known = f"UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-07),{long},'distance_accuracy_value','')"
    return step.add(
        f"(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({step.add(known)}))"
        f"GLOBAL_UNIT_ASSIGNED_CONTEXT(({long},{angle},{solid}))REPRESENTATION_CONTEXT('',''))"
    )


def _write(step: Entities, name: str, file: Path) -> None:
    file.write_text(FRAME.format(name=quoted(name), data=step.text()), "ascii", newline="\n")
