"""The coupons: as large as they are lettered, so that they tell the machine's errors and not their own."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, pi, sqrt
from typing import NamedTuple

import numpy as np
import shapely

from jigs.asked.job import Job
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, counted, near, polygon_of, spans
from jigs.words.lengths import Unit

NAME = "coupon"
STEP = 7.0  # height of one outside


class Lettered(NamedTuple):
    """Sizes that it has, mm."""

    lengths: tuple[float, ...]  # outside from the top down, and inside
    holes: tuple[float, ...]
    plays: tuple[float, ...]  # of the notches over the tab, from the left
    tab: float
    corner: float  # radius


LETTERED: dict[Unit, Lettered] = {
    "mm": Lettered(
        (10.0, 20.0, 40.0, 80.0), (4.0, 8.0, 10.0, 15.0), (0.0, 0.05, 0.1, 0.15, 0.2, 0.3), 10.0, 25.0
    ),
    "in": Lettered(
        (12.7, 19.05, 38.1, 76.2),
        (6.35, 9.525, 12.7, 15.875),
        (0.0, 0.0508, 0.1016, 0.1524, 0.2032, 0.3048),
        9.525,
        25.4,
    ),
}
SLACK = 0.01  # mm
SHEET = "sheet-coupon"


def coupon_checks(files: Files, job: Job) -> list[Check]:
    """Outsides, insides, holes and the round corner; of a printer the tab and its notches; then the sheet's notches."""
    sizes = LETTERED[job.unit]
    fits, sheet = job.workshop.made.coupon == "print", job.workshop.boards.sheet
    return [*_machine(files, sizes, fits), *(_sheet(files, sizes, sheet) if files.has(SHEET) else ())]


def _sheet(files: Files, sizes: Lettered, sheet: float) -> list[Check]:
    """From the left."""
    shape = shapely.Polygon(files.plate(SHEET).face.exterior)
    high = shape.bounds[3]
    lands = spans(shape, high - 1.0)
    gaps = [b[0] - a[1] for a, b in pairwise(lands)]
    return _listed("notch", gaps, tuple(sheet + play for play in sizes.plays), SHEET)


def _machine(files: Files, sizes: Lettered, fits: bool) -> list[Check]:
    shape = shapely.Polygon(files.plate(NAME).face.exterior)
    left, low, _, high = shape.bounds
    wide, round_ones = _openings(files)
    tab = spans(shape, left + 2.0, 1)
    notches = spans(shape, low + 1.0)
    gaps = [b[0] - a[1] for a, b in pairwise(notches)]
    return [
        *(
            near(NAME, f"outside {long:g}", _wide(shape, high - STEP * (k + 0.5)), long, SLACK)
            for k, long in enumerate(sizes.lengths)
        ),
        *_listed("inside", wide, sizes.lengths),
        *(
            near(NAME, f"hole {d:g}", min(round_ones, key=lambda own: abs(own - d), default=np.nan), d, SLACK)
            for d in sizes.holes
        ),
        *(_listed("tab", [b - a for a, b in tab], (sizes.tab,)) if fits else ()),
        *(_listed("notch", gaps, tuple(sizes.tab + play for play in sizes.plays)) if fits else ()),
        near(NAME, "round corner", _corner(shape, sizes.corner), sizes.corner, SLACK),
    ]


def _listed(what: str, found: list[float], wanted: tuple[float, ...], name: str = NAME) -> list[Check]:
    count = counted(name, f"{what}: how many", len(found), len(wanted))
    return [count, *(near(name, f"{what} {b:g}", a, b, SLACK) for a, b in zip(found, wanted, strict=False))]


def _openings(files: Files) -> tuple[list[float], list[float]]:
    """Widths of the straight windows, and diameters of the round holes."""
    drawn = files.drawn(NAME)
    rings = [polygon_of(hole) for hole in drawn.holes]
    if not rings:
        rings = [shapely.Polygon(ring) for ring in files.plate(NAME).face.interiors]
    wide = [ring.bounds[2] - ring.bounds[0] for ring in rings if len(ring.exterior.coords) == 5]
    others = [ring for ring in rings if len(ring.exterior.coords) != 5]
    drills = [drill.diameter for drill in drawn.drills]
    return sorted(wide), [*drills, *(2 * sqrt(ring.area / pi) for ring in others)]


def _wide(shape: shapely.Polygon, y: float) -> float:
    return sum(b - a for a, b in spans(shape, y))


def _corner(shape: shapely.Polygon, radius: float) -> float:
    """Radius of the arc at the right: the three places of the outline at and beside its middle."""
    right = shape.bounds[2]
    points = np.asarray(shape.exterior.coords)
    near_it = points[points[:, 0] > right - 0.8 * radius]
    arc = near_it[near_it[:, 1] > shape.bounds[1] + 2 * radius]
    if len(arc) < 3:
        return float("nan")
    (ax, ay), (bx, by), (cx, cy) = arc[[0, len(arc) // 2, -1]].tolist()
    area = abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)) / 2
    sides = hypot(bx - ax, by - ay) * hypot(cx - bx, cy - by) * hypot(ax - cx, ay - cy)
    return sides / (4 * area) if area else float("nan")
