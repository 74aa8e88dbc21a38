"""Parts longer than their bed, in pieces whose keyed joints go together one way only."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, dist, pi
from typing import TypeVar

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.crossings import crossings, distances, parameter
from geometry.plane.edges import Edge
from geometry.plane.loops import part as part_of_edge
from geometry.plane.profile import from_edges, profile
from geometry.plane.split import Key, split
from geometry.records import Record, replace
from jigs.parts.beds import Bed, overflow
from jigs.parts.joints import ROUGH, TURNS, Obstacles, edges_of, keys, obstacles, reaching, tip_stays_in
from jigs.parts.part import Bevel, Dimension, Lettering, Line, Mark, Part, Point
from jigs.parts.places import NoRoom, as_lines, lettered, place
from jigs.parts.probes import (
    ArcRadius,
    EdgeAngle,
    EdgeGap,
    EdgeLength,
    Extent,
    HoleDiameter,
    ProfileForm,
    Thickness,
)
from jigs.parts.readback import MeasureError, ReadBack, measure

T = TypeVar("T")

LETTERS = "abcdefgh"  # so many pieces at most
GAIN = 1.0  # mm less over the bed that a joint must bring, unless both pieces then lie on it
LINE_GAP = 1.5  # mm that a marked line stops short of a joint
ON_EDGE = 0.1  # mm; a probe's point no farther off lies on the edge
SAME = 1e-6
ON_FORM = 1e-4  # mm from a whole working edge, within which an edge of a piece is a part of it


class CannotSplit(ValueError):
    """A part that no joint brings down to its bed."""


class _Piece(Record):
    outline: Contour
    top: Contour | None  # of a bevel
    holes: tuple[Contour, ...]
    marks: tuple[Mark, ...]
    joints: tuple[Point, ...]  # the middle of each


def split_to_bed(part: Part, bed: Bed, play: float) -> list[Part]:
    """The part in pieces that lie on `bed` (mm by mm), named -a, -b and so on; alone when it does already.

    `play` (mm) is the keys' in their sockets; the faces that butt, and the profile across them, are exact.
    Every piece is lettered beside its joints, and keeps the dimensions that it can be measured by. Raises
    CannotSplit.
    """
    if not overflow(part.outline, bed):
        return [part]
    whole = _Piece(part.outline, part.bevel.top if part.bevel else None, part.holes, part.marks, ())
    pieces = _divided(whole, bed, play, 0)
    if len(pieces) > len(LETTERS):
        raise CannotSplit(f"{part.name} would take {len(pieces)} pieces, more than {len(LETTERS)}")
    return [_as_part(part, piece, LETTERS[k]) for k, piece in enumerate(pieces)]


def _divided(piece: _Piece, bed: Bed, play: float, joint: int) -> list[_Piece]:
    if not overflow(piece.outline, bed):
        return [piece]
    first, second = _best(piece, bed, play, joint)
    done = _divided(first, bed, play, joint + 1)
    return [*done, *_divided(second, bed, play, joint + len(done))]


def _best(piece: _Piece, bed: Bed, play: float, joint: int) -> tuple[_Piece, _Piece]:
    """The two pieces at the best place for a joint: both on the bed if that can be, else less over it."""
    keep_clear = obstacles(piece.holes, piece.marks)
    over = overflow(piece.outline, bed)
    better: tuple[_Piece, _Piece] | None = None
    for turns in TURNS:
        for least, key in keys(piece.outline, turns, bed, joint, keep_clear):
            if least > ROUGH + (0.0 if better else max(0.0, over - GAIN)):
                break  # those that follow bring no more
            pieces = _two(piece, key, play, keep_clear)
            left = sum(overflow(each.outline, bed) for each in pieces) if pieces else over
            if pieces and (left == 0 or (over > max(bed) and left < over - GAIN)):
                return pieces
            better = better or (pieces if left < over - GAIN else None)
    if better is None:
        raise CannotSplit("there is no place for a joint clear of holes, lettering and slanting edges")
    return better


def _two(piece: _Piece, key: Key, play: float, keep_clear: Obstacles) -> tuple[_Piece, _Piece] | None:
    """The piece with the key and the piece with its socket; None where the joint cannot be."""
    if not keep_clear.clear_of(key) or not tip_stays_in(key, piece.outline):
        return None
    path = reaching(key)
    try:
        left, right = split(piece.outline, path)
        with_key = split(piece.outline, reaching(key, play))[0]
        tops = _tops(piece, key, play, (with_key, right))
    except ValueError:  # an edge crosses the joint beside the key, or the bevel lies otherwise than the edge
        return None
    if not keep_clear.undivided_by(left):
        return None
    joint = ((key.start[0] + key.end[0]) / 2, (key.start[1] + key.end[1]) / 2)
    marks = _cut_lines(piece.marks, edges_of(key))
    first = _half(piece, with_key, tops[0], marks, joint, left)
    return first, _half(piece, right, tops[1], marks, joint, right)


def _tops(
    piece: _Piece, key: Key, play: float, outlines: tuple[Contour, Contour]
) -> tuple[Contour | None, Contour | None]:
    """A bevel's top, cut as the outline is; raises ValueError where its edges then differ."""
    if piece.top is None:
        return None, None
    tops = split(piece.top, reaching(key, play))[0], split(piece.top, reaching(key))[1]
    if [len(top) for top in tops] != [len(outline) for outline in outlines]:
        raise ValueError("the joint does not cut the bevel's edges one for one")
    return tops


def _half(
    piece: _Piece, outline: Contour, top: Contour | None, marks: Sequence[Mark], joint: Point, within: Contour
) -> _Piece:
    """What of a piece lies `within`; a joint it had before goes to the half that has its face."""
    kept = [face for face in piece.joints if distances(outline.edges(), np.array([face])).min() <= ON_EDGE]
    return _Piece(
        outline,
        top,
        tuple(_those_within(within, piece.holes, [_point_of(hole) for hole in piece.holes])),
        tuple(_those_within(within, marks, [_place(mark) for mark in marks])),
        (*kept, joint),
    )


def _those_within(within: Contour, things: Sequence[T], places: Sequence[Point]) -> list[T]:
    inside = within.contains(np.array(places)).tolist()
    return [thing for thing, is_inside in zip(things, inside, strict=True) if is_inside]


def _point_of(hole: Contour) -> Point:
    x, y = hole.points[0].tolist()
    return x, y


def _place(mark: Mark) -> Point:
    """A point of a mark that says on which side of a joint it is."""
    if isinstance(mark, Lettering):
        return mark.origin
    (x0, y0), (x1, y1) = mark.points[:2]
    return (x0 + x1) / 2, (y0 + y1) / 2


def _cut_lines(marks: Sequence[Mark], joint: Sequence[Edge]) -> list[Mark]:
    """The marks, lines cut where they cross the joint and drawn back a little there."""
    found: list[Mark] = []
    for mark in marks:
        crossed = isinstance(mark, Line) and any(_cuts(a, b, joint) for a, b in pairwise(mark.points))
        found += _pieces_of_line(mark, joint) if isinstance(mark, Line) and crossed else [mark]
    return found


def _cuts(start: Point, end: Point, joint: Sequence[Edge]) -> list[float]:
    """The fractions of a segment at which it crosses the joint."""
    segment = Edge(start, end)
    return sorted(parameter(segment, met) for edge in joint for met in crossings(segment, edge))


def _pieces_of_line(line: Line, joint: Sequence[Edge]) -> list[Line]:
    """Each segment of a line, in pieces."""
    pieces = []
    for start, end in pairwise(line.points):
        stops = [0.0, *_cuts(start, end, joint), 1.0]
        gap = LINE_GAP / max(dist(start, end), LINE_GAP)
        for a, b in pairwise(stops):
            a, b = (a if a == 0.0 else a + gap), (b if b == 1.0 else b - gap)
            if b - a > gap:
                kept = part_of_edge(Edge(start, end), a, b)
                pieces.append(Line((kept.start, kept.end), line.name))
    return pieces


def _as_part(part: Part, piece: _Piece, letter: str) -> Part:
    made = replace(
        part,
        name=f"{part.name}-{letter}",
        purpose=f"{part.purpose}; piece {letter.upper()}",
        outline=piece.outline,
        holes=piece.holes,
        bevel=Bevel(part.bevel.land, piece.top) if part.bevel and piece.top else None,
        marks=(*piece.marks, *_letters(part, piece, letter.upper())),
        piece_of=part.name,
    )
    return replace(made, dimensions=_dimensions(part, made))


def _letters(part: Part, piece: _Piece, letter: str) -> list[Lettering]:
    """The piece's letter beside its joints: the first at least."""
    height = max((mark.height for mark in part.marks if isinstance(mark, Lettering)), default=4.0)
    found: list[Lettering] = []
    for joint in piece.joints:
        taken = as_lines([*piece.marks, *found])
        try:
            found += place(lettered(piece.outline, piece.holes, taken, (letter,), joint, height)[0])
        except NoRoom as error:
            if not found:
                raise CannotSplit("there is no room for a letter beside the joint") from error
    return found


def _dimensions(whole: Part, piece: Part) -> tuple[Dimension, ...]:
    """Those of the whole part that the piece has, arcs as far as they go, and its own size."""
    x0, y0, x1, y1 = piece.outline.bounds
    kept = [found for dimension in whole.dimensions if (found := _kept(dimension, piece)) is not None]
    return (*kept, Dimension("width", x1 - x0, Extent("x")), Dimension("height", y1 - y0, Extent("y")))


def _kept(dimension: Dimension, piece: Part) -> Dimension | None:
    match dimension.probe:
        case Thickness():
            return dimension
        case Extent(_):
            return None
        case ArcRadius() as probe:
            return _arc(dimension, probe, piece)
        case ProfileForm(rows):
            return _form(dimension, profile(*rows).edges(), piece)
        case HoleDiameter(_):
            return dimension if _measures(dimension, piece) else None
        case EdgeAngle(first, second) | EdgeGap(first, second):
            points = (first, second)
        case EdgeLength(point):
            points = (point, point)
    edges = [edge for contour in (piece.outline, *piece.holes) for edge in contour.edges()]
    here = distances(edges, np.array(points)).max() <= ON_EDGE
    return dimension if here and _measures(dimension, piece) else None


def _measures(dimension: Dimension, piece: Part) -> bool:
    """Whether the piece measures so: not where the joint cuts the edge short, or the hole is elsewhere."""
    try:
        measure(replace(piece, dimensions=(dimension,)), ReadBack((piece.outline, *piece.holes), None, SAME))
    except MeasureError:
        return False
    return True


def _arc(dimension: Dimension, probe: ArcRadius, piece: Part) -> Dimension | None:
    """The part of a working arc that is on a piece."""
    span = (probe.end - probe.start) % (2 * pi)
    for edge in piece.outline.edges():
        if edge.is_arc and dist(edge.centre, probe.centre) <= ON_EDGE:
            x, y = edge.midpoint
            middle = (atan2(y - probe.centre[1], x - probe.centre[0]) - probe.start) % (2 * pi)
            low, high = max(0.0, middle - abs(edge.angle) / 2), min(span, middle + abs(edge.angle) / 2)
            if abs(edge.radius - dimension.value) <= SAME and low < high:
                sector = ArcRadius(probe.centre, probe.start + low, probe.start + high)
                return replace(dimension, probe=sector)
    return None


def _form(dimension: Dimension, nominal: Sequence[Edge], piece: Part) -> Dimension | None:
    """The longest part of a whole working edge that is on a piece."""
    edges = piece.outline.edges()
    places = np.array([edge.point_at(t) for edge in edges for t in (0.0, 0.5, 1.0)])
    off = distances(nominal, places).reshape(-1, 3).max(axis=1)
    runs = _runs([edge if out <= ON_FORM else None for edge, out in zip(edges, off, strict=True)])
    if not runs:
        return None
    longest = from_edges(max(runs, key=lambda run: sum(edge.length for edge in run)))
    return replace(dimension, probe=ProfileForm(tuple((x, y, b) for x, y, b in longest.vertices.tolist())))


def _runs(edges: Sequence[Edge | None]) -> list[list[Edge]]:
    """The edges of a closed outline in runs, which the ones left out part."""
    first = next((k for k, edge in enumerate(edges) if edge is None), 0)
    runs: list[list[Edge]] = [[]]
    for edge in [*edges[first:], *edges[:first]]:
        if edge is None:
            runs.append([])
        else:
            runs[-1].append(edge)
    return [run for run in runs if run]
