"""The inside of a vessel from its outside and its wall.

Profiles rise from the foot; x is the radius, y the height. A wall is measured square to the outer surface.
Lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from geometry.bodies.floor import with_floor
from geometry.bodies.varied_wall import beside_by_height
from geometry.bodies.wall_measure import shortfall
from geometry.plane.arcs import SAME_POINT, FloatArray, Point, bulge_about
from geometry.plane.crossings import distances
from geometry.plane.edges import Edge
from geometry.plane.profile import Profile, from_edges

_FOLLOWS = 1e-5  # mm; what misses its place by less is there
_SHORT = 0.02  # mm by which the wall by height may fall short where arcs stand for its inner side

Wall = float | Sequence[tuple[float, float]]


class TooTight(ValueError):
    """The outside curves more tightly at height `z` than the wall allows; `most` is the largest that works."""

    def __init__(self, message: str, z: float, most: float) -> None:
        super().__init__(message)
        self.z = z
        self.most = most


def inner_from_wall(outer: Profile, wall: Wall, floor: float | None, corner: float) -> Profile:
    """The inner profile: along the floor at height `floor`, round its corner, and up to the rim's height.

    Without a floor it is the wall alone, from the foot's height up.

    `wall` is one thickness or (height, thickness) pairs, linear between their heights and constant beyond
    them. `corner` is the radius between floor and wall, 0 for a sharp one. Raises TooTight where an arc of
    the outside, or the outside as a whole, is too small for the wall, and ValueError when the floor leaves no
    inside or, with the largest that fits, the corner does not fit.
    """
    pairs = _by_height(wall)
    if floor is None:
        _refuse_tight_arcs(outer, pairs, 0.0)
        side = _side(outer, pairs, 0.0)
        _refuse_narrow(outer, pairs, side)
        return side
    if not 0.0 < floor < outer.top:
        raise ValueError(
            f"the floor, at {floor:.6g} mm, must lie above the foot and below the rim at {outer.top:.6g} mm"
        )
    _refuse_tight_arcs(outer, pairs, floor)
    side = _side(outer, pairs, floor)
    _refuse_narrow(outer, pairs, side)
    return with_floor(side, corner)


def _by_height(wall: Wall) -> FloatArray:
    """The wall as (height, thickness) rows. Raises ValueError unless heights rise and all is thicker than 0."""
    pairs = np.array([(0.0, wall)] if isinstance(wall, int | float) else wall, dtype=np.float64).reshape(
        -1, 2
    )
    if not len(pairs) or not (pairs[:, 1] > 0.0).all() or not (np.diff(pairs[:, 0]) > 0.0).all():
        raise ValueError("a wall must be thicker than 0 mm, and the heights at which it is given must rise")
    return pairs


def _most_over(pairs: FloatArray, edge: Edge) -> float:
    """The thickest wall over the heights of an edge."""
    low, high = sorted((edge.start[1], edge.end[1]))
    within = pairs[(pairs[:, 0] >= low) & (pairs[:, 0] <= high), 1]
    return float(max(*np.interp((low, high), *pairs.T), within.max(initial=0.0)))


def _refuse_tight_arcs(outer: Profile, pairs: FloatArray, floor: float) -> None:
    """Raise TooTight where an arc that curves round the inside is used up by the wall above the floor."""
    walls = [(edge, _most_over(pairs, edge)) for edge in outer.edges() if edge.bulge > 0.0]
    tight = [(edge, wall) for edge, wall in walls if edge.radius <= wall and _shows(edge, wall, floor)]
    if not tight:
        return
    edge, wall = min(tight, key=lambda found: found[0].radius)
    z, most = edge.midpoint[1], _below(edge.radius)
    raise TooTight(
        f"at a height of {z:.6g} mm the outside curves to a radius of {edge.radius:.6g} mm, too tight for a wall "
        f"of {wall:.6g} mm; the largest there is {most:.6g} mm",
        z,
        most,
    )


def _shows(edge: Edge, wall: float, floor: float) -> bool:
    """Whether the inner surface beside an end of an edge lies above the floor."""
    return any(edge.point_at(t)[1] + wall * math.cos(edge.heading(t)) > floor for t in (0.0, 1.0))


def _below(size: float) -> float:
    """The largest whole micrometre that is less than `size`."""
    return (math.ceil(size * 1000.0 - 1e-6) - 1) / 1000.0


def _side(outer: Profile, pairs: FloatArray, floor: float) -> Profile:
    """The inner wall from the floor's height to the rim's."""
    line = _parallel(outer, pairs[0, 1]) if len(pairs) == 1 else beside_by_height(outer, pairs, floor)
    if line.bottom >= outer.top:
        raise ValueError(
            f"the wall leaves no inside: its inner side starts above the rim at {outer.top:.6g} mm"
        )
    if line.top <= floor:
        raise ValueError(
            f"the floor, at {floor:.6g} mm, must be lower than {line.top:.6g} mm, where the inner wall ends"
        )
    side = _round_ends(line, outer, floor).spanning(floor, outer.top)
    if len(pairs) > 1:
        _refuse_short(outer, side, pairs)
    return side


def _parallel(outer: Profile, wall: float) -> Profile:
    """The inner side of a constant wall, as far as the outside goes."""
    line = outer.beside(-wall)
    for end, own in ((outer.start, line.start), (outer.end, line.end)):
        if abs(math.dist(end, own) - wall) > _FOLLOWS:
            raise ValueError(f"the wall cannot be followed past a height of {own[1]:.6g} mm")
    return line


def _round_ends(line: Profile, outer: Profile, floor: float) -> Profile:
    """An inner side that starts above the floor or ends below the rim, led on round the outside's ends.

    An arc about the end keeps the wall as thick as it is there, down to the foot and up to the rim: the lip is
    as wide as the wall, and square. Straight on it would be thinner under a rim that leans in, or end in a
    feather edge.
    """
    edges = list(line.edges())
    first, last = math.dist(outer.start, line.start), math.dist(outer.end, line.end)
    if line.start[1] > floor + _FOLLOWS and line.start[0] > outer.start[0] - first + _FOLLOWS:
        edges.insert(0, _about(outer.start, (outer.start[0] - first, outer.start[1]), line.start))
    if line.end[1] < outer.end[1] - _FOLLOWS and line.end[0] > outer.end[0] - last + _FOLLOWS:
        edges.append(_about(outer.end, line.end, (outer.end[0] - last, outer.end[1])))
    return from_edges(edges)


def _refuse_short(outer: Profile, side: Profile, pairs: FloatArray) -> None:
    """Raise TooTight where a wall by height is thinner than asked: another part of the outside comes near."""
    short, z, wall = shortfall(outer, side, pairs)
    if short <= _SHORT:
        return
    raise TooTight(
        f"at a height of {z:.6g} mm the wall of {wall:.6g} mm comes out as {wall - short:.6g} mm, "
        "because the outside turns in near it",
        z,
        _below(wall - short),
    )


def _about(centre: Point, start: Point, end: Point) -> Edge:
    return Edge(start, end, bulge_about(centre, start, end, ccw=False))


def _refuse_narrow(outer: Profile, pairs: FloatArray, side: Profile) -> None:
    """Raise TooTight where the inner wall reaches the axis above the floor."""
    if side.radii(side.bottom, side.top)[0] > SAME_POINT:
        return
    z, most = _room(outer, pairs, side.bottom, side.top)
    # The floor may follow the wall, so that a thinner one uncovers what lies lower.
    most = min(most, _room(outer, pairs, min(side.bottom, most), side.top)[1])
    raise TooTight(
        f"the wall closes the inside at a height of {z:.6g} mm; the largest there is {most:.6g} mm", z, most
    )


def _room(outer: Profile, pairs: FloatArray, low: float, high: float) -> tuple[float, float]:
    """Where between two heights the outside leaves a wall least room up to the axis, and the most that it takes."""
    heights = np.linspace(low, high, 2001)
    room = distances(outer.edges(), np.column_stack((np.zeros(len(heights)), heights)))
    k = int((room - np.interp(heights, *pairs.T)).argmin())
    return float(heights[k]), _below(float(room[k]) - 5e-4)  # between the heights there is a little less
