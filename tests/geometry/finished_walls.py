"""Brute force on the finished wall of many random vessels, by shapely on dense points.

`python -m tests.geometry.finished_walls 500` prints the figures for 500 of them.
"""

import math
import sys
from dataclasses import dataclass

import numpy as np
import shapely

from geometry.bodies.floor import TightCorner
from geometry.bodies.section import inner_from_wall, least_wall
from geometry.curves.biarcs import biarcs
from geometry.curves.spline import through
from geometry.plane.profile import FloatArray, Profile

STEP = 0.1  # mm between the points of a chain


@dataclass
class Tried:
    """What came of many vessels: how far, mm, a wall was ever thinner than it should be."""

    made: int = 0
    refused: int = 0
    leaning_in: int = 0
    flatter_than_45: int = 0
    by_height: int = 0
    thinner_than_asked: float = -math.inf
    thinner_than_reported: float = -math.inf
    thicker_than_reported: float = -math.inf


def finished_walls(count: int, seed: int) -> Tried:
    """Random vessels until so many have an inside."""
    rng, tried = np.random.default_rng(seed), Tried()
    while tried.made < count:
        outer = _outside(rng)
        if outer is not None:
            _one(rng, outer, tried)
    return tried


def _outside(rng: np.random.Generator) -> Profile | None:
    """Stations, the last of them, more often than not, a rim that leans in, up to nearly flat."""
    n = int(rng.integers(2, 5))
    radii = rng.uniform(25.0, 80.0, n)
    heights = np.concatenate(([0.0], np.cumsum(rng.uniform(15.0, 50.0, n - 1))))
    if rng.random() < 0.7:  # a rim that turns in, or a neck before a lip that turns out
        lean, reach = rng.uniform(-80.0, 85.0), rng.uniform(4.0, 35.0)
        radii = np.append(radii, max(12.0, radii[-1] - reach * math.sin(math.radians(lean))))
        heights = np.append(heights, heights[-1] + reach * math.cos(math.radians(lean)))
    points = np.column_stack((radii, heights))
    if rng.random() < 0.4:
        found = Profile(biarcs(through(points)))
    else:
        bulges = rng.choice([0.0, 1.0], len(radii)) * rng.uniform(-0.3, 0.3, len(radii))
        found = Profile(np.column_stack((points, bulges)))
    low = found.radii(found.bottom, found.top)[0]
    return found if found.fold() is None and low > 8.0 and found.end[1] >= found.top - 1e-9 else None


def _one(rng: np.random.Generator, outer: Profile, tried: Tried) -> None:
    wall, floor = float(rng.uniform(2.0, 9.0)), float(rng.uniform(4.0, 12.0))
    corner = float(rng.choice([0.0, 3.0]))
    asked = np.array([(0.0, wall)])
    if by_height := rng.random() < 0.3:
        asked = np.column_stack((np.array([0.0, 0.5, 1.0]) * outer.top, rng.uniform(3.0, 9.0, 3)))
    try:
        inner = inner_from_wall(outer, [*map(tuple, asked.tolist())] if by_height else wall, floor, corner)
    except (ValueError, TightCorner):
        tried.refused += 1
        return
    tried.made += 1
    tried.by_height += by_height
    lean = outer.edges()[-1].heading(1.0) - math.pi / 2.0
    tried.leaning_in += lean > 0.05
    tried.flatter_than_45 += lean > math.pi / 4.0
    _measure(outer, inner, asked, floor, tried)


def _measure(outer: Profile, inner: Profile, asked: FloatArray, floor: float, tried: Tried) -> None:
    """The inside's points against the outside's line, the rim's edge included; the floor is no wall."""
    line, places = shapely.LineString(_points(outer)), _points(inner)[::2]
    walls = shapely.distance(line, shapely.points(places))
    feet = shapely.get_y(
        shapely.line_interpolate_point(line, shapely.line_locate_point(line, shapely.points(places)))
    )
    side = places[:, 1] > floor + 1e-6
    short = np.interp(feet, *asked.T) - walls
    tried.thinner_than_asked = max(tried.thinner_than_asked, float(short[side].max()))
    reported, _ = least_wall(outer, inner)
    tried.thinner_than_reported = max(tried.thinner_than_reported, reported - float(walls.min()))
    tried.thicker_than_reported = max(tried.thicker_than_reported, float(walls.min()) - reported)


def _points(chain: Profile) -> FloatArray:
    found = [chain.start]
    for edge in chain.edges():
        count = max(2, math.ceil(edge.length / STEP))
        found += [edge.point_at(k / count) for k in range(1, count)] + [edge.end]
    return np.array(found)


if __name__ == "__main__":
    print(finished_walls(int(sys.argv[1]), seed=7))
