"""The inside of a vessel from its outside and its wall, and the least wall between two profiles.

Profiles rise from the foot; x is the radius, y the height. A wall is measured square to the outer surface.
Lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from geometry.arcs import SAME_POINT, FloatArray, Point, bulge_about, points_along
from geometry.contour import Contour
from geometry.crossings import distances
from geometry.edges import Edge
from geometry.floor import with_floor
from geometry.profile import Profile, from_edges
from geometry.varied_wall import beside_by_height

_FOLLOWS = 1e-5  # mm; what misses its place by less is there
_STEP = 0.1  # mm between the places at which a wall is first looked at

Wall = float | Sequence[tuple[float, float]]


class TooTight(ValueError):
    """The outside curves more tightly at height `z` than the wall allows; `most` is the largest that works."""

    def __init__(self, message: str, z: float, most: float) -> None:
        super().__init__(message)
        self.z = z
        self.most = most


def inner_from_wall(outer: Profile, wall: Wall, floor: float, corner: float) -> Profile:
    """The inner profile: along the floor at height `floor`, round its corner, and up to the rim's height.

    `wall` is one thickness or (height, thickness) pairs, linear between their heights and constant beyond
    them. `corner` is the radius between floor and wall, 0 for a sharp one. Raises TooTight where an arc of
    the outside, or the outside as a whole, is too small for the wall, and ValueError when the floor leaves no
    inside or, with the largest that fits, the corner does not fit.
    """
    pairs = _by_height(wall)
    if not 0.0 < floor < outer.top:
        raise ValueError(
            f"the floor, at {floor:.6g} mm, must lie above the foot and below the rim at {outer.top:.6g} mm"
        )
    _refuse_tight_arcs(outer, pairs, floor)
    side = _side(outer, pairs, floor)
    _refuse_narrow(outer, pairs, side)
    return with_floor(side, corner)


def least_wall(outer: Profile, inner: Profile) -> tuple[float, float]:
    """The thinnest place between two profiles: its thickness square to the surface, and the inner's height.

    Negative where the inner profile runs outside the outer one: by how far at the worst. The rim is no wall:
    places that have its outer end nearest, as on a rounded or a flat rim, do not count. Looked for at steps of
    0.1 mm, then closed in on.
    """
    body = _inside(outer)
    edges = [edge for edge in inner.edges() if edge.length > SAME_POINT]
    looked = [_thickness(outer, body, edge, *_steps(edge)) for edge in edges]
    edge, (gaps, places, t) = min(zip(edges, looked, strict=True), key=lambda found: found[1][0].min())
    step = 1.0 / (len(t) - 1)
    for _ in range(6):
        best = float(t[gaps.argmin()])
        gaps, places, t = _thickness(outer, body, edge, max(best - step, 0.0), min(best + step, 1.0), 33)
        step /= 16.0
    k = int(gaps.argmin())
    return float(gaps[k]), float(places[k, 1])


def _steps(edge: Edge) -> tuple[float, float, int]:
    return 0.0, 1.0, 3 + math.ceil(edge.length / _STEP)


def _thickness(
    outer: Profile, body: Contour, edge: Edge, start: float, end: float, count: int
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The wall at places along an edge between two fractions, - outside; the places (m, 2), the fractions.

    Infinite at the rim.
    """
    t = np.linspace(start, end, count)
    places = points_along(np.array(edge.start), np.array(edge.end), np.array(edge.angle), t)
    gaps = distances(outer.edges(), places)
    at_rim = np.hypot(*(places - outer.end).T) <= gaps + SAME_POINT
    within = np.where(at_rim, np.inf, gaps)
    return np.where(body.contains(places) | (gaps <= SAME_POINT), within, -gaps), places, t


def _inside(outer: Profile) -> Contour:
    """All that lies inwards of a profile, well past the axis and its ends."""
    (x0, y0), (x1, y1) = outer.start, outer.end
    far = -1.0
    corners = ((x1, y1), (x1, y1 + 1.0), (far, y1 + 1.0), (far, y0 - 1.0), (x0, y0 - 1.0))
    closing = [(x, y, 0.0) for x, y in corners]
    return Contour(np.concatenate((outer.vertices[:-1], closing)))


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
    return line.spanning(floor, outer.top)


def _parallel(outer: Profile, wall: float) -> Profile:
    """The inner side of a constant wall, led round the ends of the outside where it was trimmed by these."""
    line = outer.beside(-wall)
    for end, own in ((outer.start, line.start), (outer.end, line.end)):
        if abs(math.dist(end, own) - wall) > _FOLLOWS:
            raise ValueError(f"the wall cannot be followed past a height of {own[1]:.6g} mm")
    edges = line.edges()
    if _heads_for(outer.start, line.start, edges[0].heading(0.0) + math.pi, wall):
        edges = (_about(outer.start, (outer.start[0] - wall, outer.start[1]), line.start), *edges)
    if _heads_for(outer.end, line.end, edges[-1].heading(1.0), wall):
        edges = (*edges, _about(outer.end, line.end, (outer.end[0] - wall, outer.end[1])))
    return from_edges(edges)


def _heads_for(end: Point, place: Point, heading: float, wall: float) -> bool:
    """Whether going on from a place comes nearer to an end that lies the wall away, and beyond in height."""
    dx, dy = end[0] - place[0], end[1] - place[1]
    beyond = dy * math.sin(heading) > _FOLLOWS
    return beyond and dx * math.cos(heading) + dy * math.sin(heading) > _FOLLOWS * wall


def _about(centre: Point, start: Point, end: Point) -> Edge:
    return Edge(start, end, bulge_about(centre, start, end, ccw=False))


def _refuse_narrow(outer: Profile, pairs: FloatArray, side: Profile) -> None:
    """Raise TooTight where the inner wall reaches the axis above the floor."""
    if side.radii(side.bottom, side.top)[0] > SAME_POINT:
        return
    heights = np.linspace(side.bottom, side.top, 2001)
    # Where the outside leans in at the rim, so does its parallel, led on to the rim's height.
    longer = outer.spanning(outer.bottom, outer.top + 2.0 * float(pairs[:, 1].max()) + 1.0)
    room = distances(longer.edges(), np.column_stack((np.zeros(len(heights)), heights)))
    k = int((room - np.interp(heights, *pairs.T)).argmin())
    z, most = float(heights[k]), _below(float(room[k]) - 5e-4)  # between the heights there is a little less
    raise TooTight(
        f"the wall closes the inside at a height of {z:.6g} mm; the largest there is {most:.6g} mm", z, most
    )
