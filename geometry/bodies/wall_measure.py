"""How thick the wall between two profiles is, measured. x is the radius, y the height; lengths mm."""

from __future__ import annotations

import math

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import SAME_POINT, FloatArray, IntArray, lengths_of, points_along, spread
from geometry.plane.nearest import Table, distances, feet, nearest, ray_lengths
from geometry.plane.profile import Profile

_STEP = 0.1  # mm between the places at which a wall is first looked at
_MEETS = 1e-6  # mm; an inside that ends at the rim's edge itself looks past it


def least_wall(outer: Profile, inner: Profile, step: float = _STEP) -> tuple[float, float]:
    """The thinnest place between two profiles: its thickness square to the surface, and the inner's height.

    Square to the outer surface; at places nearest to its upper end, the rim's edge, square to the inner one, so
    that a rounded rim is no thin wall and a thin lip is one. Negative where the inner profile runs outside the
    outer one: by how far at the worst. Looked for at steps of 0.1 mm, or as given, then closed in on: what is
    missed between two steps is less than half of one thinner.
    """
    body, outside = _inside(outer), Table.of(outer.edges())
    side, which, t = _along(inner, step)
    gaps = _gaps(outer, outside, body, side.only(which), t)
    k = int(gaps.argmin())
    edge, room = which[k], 1.0 / (np.count_nonzero(which == which[k]) - 1)
    for _ in range(6):
        best = float(t[k])
        t = np.linspace(max(best - room, 0.0), min(best + room, 1.0), 33)
        gaps = _gaps(outer, outside, body, side.only(np.full(33, edge)), t)
        k, room = int(gaps.argmin()), room / 16.0
    return float(gaps[k]), float(_places(side.only(np.array([edge])), t[k : k + 1])[0, 1])


def _along(line: Profile, step: float) -> tuple[Table, IntArray, FloatArray]:
    """A profile's edges, and places along each: the edge's number and the fraction of its length."""
    edges = [edge for edge in line.edges() if edge.length > SAME_POINT]
    parts = np.array([2 + math.ceil(edge.length / step) for edge in edges])
    t, which = spread(np.zeros(len(edges)), np.ones(len(edges)), parts)
    return Table.of(edges), which, t


def shortfall(outer: Profile, side: Profile, pairs: FloatArray) -> tuple[float, float, float]:
    """By how much an inner side comes nearer to the outside than the wall asked for there: the most, where, the wall.

    `pairs` (k, 2) are heights of the outside and the wall asked for there. Looked for at steps of 0.1 mm.
    """
    own, each, t = _along(side, _STEP)
    places, outside = _places(own.only(each), t), Table.of(outer.edges())
    gaps, which = nearest(outside, places)
    heights = feet(outside, which, places)[:, 1]
    asked = np.interp(heights, *pairs.T)
    k = int((asked - gaps).argmax())
    return float(asked[k] - gaps[k]), float(heights[k]), float(asked[k])


def _gaps(outer: Profile, outside: Table, body: Contour, on: Table, t: FloatArray) -> FloatArray:
    """The wall at places, each on an edge of its own at a fraction of its length; - outside."""
    places = _places(on, t)
    gaps = distances(outside, places)
    out = ~(body.contains(places) | (gaps <= SAME_POINT))
    at_rim = np.flatnonzero((lengths_of(places - outer.end) <= gaps + SAME_POINT) & ~out)
    wall = np.where(out, -gaps, gaps)
    rays = ray_lengths(outside, places[at_rim], _inward(on, t)[at_rim], _MEETS)
    wall[at_rim] = np.maximum(gaps[at_rim], rays)
    return wall


def _places(on: Table, t: FloatArray) -> FloatArray:
    return points_along(on.start, on.end, on.sweep, t)


def _inward(on: Table, t: FloatArray) -> FloatArray:
    """Unit vectors square to an inner edge, into the wood: to the right of travel from the floor up."""
    chord = on.end - on.start
    heading = np.arctan2(chord[:, 1], chord[:, 0]) + (t - 0.5) * on.sweep
    return np.column_stack((np.sin(heading), -np.cos(heading)))


def _inside(outer: Profile) -> Contour:
    """All that lies inwards of a profile, well past the axis and its ends."""
    (x0, y0), (x1, y1) = outer.start, outer.end
    far = -1.0
    corners = ((x1, y1), (x1, y1 + 1.0), (far, y1 + 1.0), (far, y0 - 1.0), (x0, y0 - 1.0))
    closing = [(x, y, 0.0) for x, y in corners]
    return Contour(np.concatenate((outer.vertices[:-1], closing)))
