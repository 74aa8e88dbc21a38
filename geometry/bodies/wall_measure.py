"""How thick the wall between two profiles is, measured. x is the radius, y the height; lengths mm."""

from __future__ import annotations

import math

import numpy as np

from geometry.plane.arcs import SAME_POINT, FloatArray, points_along
from geometry.plane.contour import Contour
from geometry.plane.crossings import parameter
from geometry.plane.edges import Edge
from geometry.plane.nearest import distances, nearest, ray_lengths
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
    body = _inside(outer)
    edges = [edge for edge in inner.edges() if edge.length > SAME_POINT]
    counts = [3 + math.ceil(edge.length / step) for edge in edges]
    gaps = _gaps(outer, body, edges, [np.linspace(0.0, 1.0, count) for count in counts])
    worst = min(range(len(edges)), key=lambda k: float(gaps[k].min()))
    t, room = np.linspace(0.0, 1.0, counts[worst]), 1.0 / (counts[worst] - 1)
    edge, gap = edges[worst], gaps[worst]
    for _ in range(6):
        best = float(t[gap.argmin()])
        t = np.linspace(max(best - room, 0.0), min(best + room, 1.0), 33)
        gap = _gaps(outer, body, [edge], [t])[0]
        room /= 16.0
    k = int(gap.argmin())
    return float(gap[k]), edge.point_at(float(t[k]))[1]


def shortfall(outer: Profile, side: Profile, pairs: FloatArray) -> tuple[float, float, float]:
    """By how much an inner side comes nearer to the outside than the wall asked for there: the most, where, the wall.

    `pairs` (k, 2) are heights of the outside and the wall asked for there. Looked for at steps of 0.1 mm.
    """
    edges = [edge for edge in side.edges() if edge.length > SAME_POINT]
    steps = [np.linspace(0.0, 1.0, 3 + math.ceil(edge.length / _STEP)) for edge in edges]
    places = np.concatenate([_places(edge, t) for edge, t in zip(edges, steps, strict=True)])
    outside = outer.edges()
    gaps, which = nearest(outside, places)
    feet = [
        outside[i].point_at(parameter(outside[i], (x, y)))[1]
        for i, (x, y) in zip(which.tolist(), places.tolist(), strict=True)
    ]
    asked = np.interp(feet, *pairs.T)
    k = int((asked - gaps).argmax())
    return float(asked[k] - gaps[k]), feet[k], float(asked[k])


def _gaps(outer: Profile, body: Contour, edges: list[Edge], steps: list[FloatArray]) -> list[FloatArray]:
    """The wall at places along each edge, by the fractions of its length; - outside."""
    lists = [_places(edge, t) for edge, t in zip(edges, steps, strict=True)]
    inward = [_inward(edge, t) for edge, t in zip(edges, steps, strict=True)]
    places, normals = np.concatenate(lists), np.concatenate(inward)
    gaps = distances(outer.edges(), places)
    out = ~(body.contains(places) | (gaps <= SAME_POINT))
    at_rim = np.flatnonzero((np.hypot(*(places - outer.end).T) <= gaps + SAME_POINT) & ~out)
    wall = np.where(out, -gaps, gaps)
    rays = ray_lengths(outer.edges(), places[at_rim], normals[at_rim], _MEETS)
    wall[at_rim] = np.maximum(gaps[at_rim], rays)
    return np.split(wall, np.cumsum([len(t) for t in steps])[:-1])


def _places(edge: Edge, t: FloatArray) -> FloatArray:
    return points_along(np.array(edge.start), np.array(edge.end), np.array(edge.angle), t)


def _inward(edge: Edge, t: FloatArray) -> FloatArray:
    """Unit vectors square to an inner edge, into the wood: to the right of travel from the floor up."""
    heading = edge.heading(0.0) + t * edge.angle
    return np.column_stack((np.sin(heading), -np.cos(heading)))


def _inside(outer: Profile) -> Contour:
    """All that lies inwards of a profile, well past the axis and its ends."""
    (x0, y0), (x1, y1) = outer.start, outer.end
    far = -1.0
    corners = ((x1, y1), (x1, y1 + 1.0), (far, y1 + 1.0), (far, y0 - 1.0), (x0, y0 - 1.0))
    closing = [(x, y, 0.0) for x, y in corners]
    return Contour(np.concatenate((outer.vertices[:-1], closing)))
