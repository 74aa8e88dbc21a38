"""What judges measure on drawings and plates: lines, slots, tapers, steps, and where shapes touch."""

from __future__ import annotations

from math import cos, hypot

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity

from tests.sweep.drawings import Drawing

FAR = 1e4
Floats = NDArray[np.float64]


def frame(base: Drawing) -> tuple[float, Floats, Floats]:
    """Angle between fence line and blade line, where they meet, and the direction down the fence."""
    (p, u), (q, v) = (line(base.lines[name]) for name in ("blade line", "fence line"))
    t = np.linalg.solve(np.column_stack([u, -v]), q - p)[0]
    v = v if v[1] < 0 else -v
    return float(np.arccos(abs(u @ v))), p + t * u, v


def line(points: Floats) -> tuple[Floats, Floats]:
    """A place on a line, and its direction: from its point farthest to one side to that farthest to the other."""
    far = points[np.argmax(np.hypot(*(points - points[0]).T))]
    other = points[np.argmax(np.hypot(*(points - far).T))]
    return far, (other - far) / np.hypot(*(other - far))


def slot_along(shape: shapely.Polygon, apex: Floats, along: Floats) -> tuple[float, float, float]:
    """From where to where a slot reaches along the fence, and its place farthest from the blade; far off if turned."""
    away = shapely.get_coordinates(shape) - apex
    s, u = away @ along, away @ np.array((-along[1], along[0]))
    steps = np.diff(away, axis=0)
    longest = steps[np.argmax(np.hypot(*steps.T))]
    turned = abs(longest @ along) < cos(0.01) * np.hypot(*longest)
    return float(s.min()), float(s.max()), -FAR if turned else float(u.min())


def along_line(points: Floats, apex: Floats, along: Floats) -> float:
    return float(((points - apex) @ along).mean())


def touching(ring: shapely.Polygon, cheek: shapely.Polygon) -> float:
    """How far the ring goes along x until it touches the cheek, its outermost place then being there."""
    low, high = cheek.bounds[0] - 5.0, cheek.bounds[2]
    for _ in range(50):
        middle = (low + high) / 2
        free = affinity.translate(ring, middle, 0).intersection(cheek).area < 1e-6
        low, high = (middle, high) if free else (low, middle)
    return low


def taper_of(wedge: Drawing) -> float:
    """Between a wedge's two longest straight edges."""
    ends = wedge.straight[np.argsort(-np.hypot(*(wedge.straight[:, 1] - wedge.straight[:, 0]).T))[:2]]
    a, b = (line[1] - line[0] for line in ends)
    cross = abs(a[0] * b[1] - a[1] * b[0])
    return float(np.arcsin(cross / (hypot(*a) * hypot(*b))))


def side_at(wedge: Drawing, x: float) -> float:
    """A wedge's thickness at its end that is at x, seen just inside."""
    at = wedge.outline.bounds[0] + x + 1e-4
    return float(wedge.outline.intersection(shapely.LineString([(at, -FAR), (at, FAR)])).length)


def between(plate: Drawing) -> Floats:
    """Degrees between any two of the straight edges that are 15 mm long at least."""
    along = plate.straight[:, 1] - plate.straight[:, 0]
    long = along[np.hypot(*along.T) > 15]
    turn = np.degrees(np.arctan2(long[:, 1], long[:, 0]))
    return np.asarray(np.abs((turn[:, None] - turn[None] + 90) % 180 - 90).ravel())


def hits(plate: shapely.Polygon, turns: Floats, starts: Floats) -> Floats:
    """How far from each of these places the plate begins in its direction (radians)."""
    ends = starts + FAR * np.column_stack([np.cos(turns), np.sin(turns)])
    shapely.prepare(plate)
    rays = shapely.intersection(shapely.linestrings(np.stack([starts, ends], axis=1)), plate)
    off = shapely.distance(rays, shapely.points(starts))
    return np.where(shapely.is_empty(rays), FAR, off)


def steps(plate: shapely.Polygon, gap: bool) -> list[float]:
    """Widths, or gaps between two legs, that a plate keeps for a millimetre at least."""
    whole, low, high = shapely.Polygon(plate.exterior), plate.bounds[1], plate.bounds[3]
    found: list[float] = []
    for y in np.arange(low + 0.3, high, 0.5):
        cut = whole.intersection(shapely.LineString([(-FAR, y), (FAR, y)]))
        ends = sorted(part.bounds[::2] for part in getattr(cut, "geoms", [cut]) if part.length > 0.01)
        if gap and len(ends) == 2:
            found.append(ends[1][0] - ends[0][1])
        elif not gap and len(ends) == 1:
            found.append(ends[0][1] - ends[0][0])
    return [
        a for a, b, c in zip(found, found[1:], found[2:], strict=False) if max(a, b, c) - min(a, b, c) < 0.01
    ]
