"""What a blank still holds, by a few measures of it as it is: the largest torus, or how much a planned one lacks.

A flat whose normal makes the angle a with straight out lets a torus of R and r' in while p R + q r' <= its apothem and
p R_p together (geometry.bodies.torus.apothem_needed is linear in both): two unknowns, so the best is at a corner.
"""

from __future__ import annotations

from itertools import combinations
from math import cos

import numpy as np

from geometry.bodies.torus import Blank, apothem_needed, flat_normals
from geometry.bodies.tube import Tube, tube_of
from geometry.plane.edges import FloatArray
from geometry.records import Record


class BlankMeasured(Record):
    """mm. `across` is the least across the outer flats or arrises, twice the radius in the middle of a ring."""

    across: float
    hole: float  # greatest, from joint to joint
    height: float  # least, over the flats that lie up and down
    offset: float = 0.0  # of the hole's middle from the rim's
    flats: float | None = None  # least across the flats of a ring, where they lean


def apothems(blank: Blank, read: BlankMeasured) -> FloatArray:
    """Wood from the planned middle of a ring, which stands at R_p, to each flat, (n,), the first straight down.

    An offset takes half of itself from the rim and half from the hole: the work is centred between them.
    """
    lean = np.cos(flat_normals(blank.segments))
    share = float(np.abs(lean).max())  # 1, or cos mu where an arris points out
    out = (read.across / 2 - read.offset / 2 - blank.centre) * share
    inward = (blank.centre - (read.hole / 2 + read.offset / 2) * cos(blank.half_wedge)) * share
    between = min(read.flats / 2, blank.apothem) if read.flats else blank.apothem
    found = np.where(lean > share - 1e-9, out, np.where(lean < -share + 1e-9, inward, between))
    return np.asarray(np.where(np.abs(lean) < 1e-9, read.height / 2, found))


def margin(blank: Blank, wood: FloatArray, major: float, tube: Tube) -> FloatArray:
    """Wood beyond a torus at each flat, (n,); negative where it comes through."""
    return np.asarray(wood - apothem_needed(major, tube, blank.wedge_rings, blank.segments, blank.centre))


def largest_torus(blank: Blank, wood: FloatArray) -> tuple[float, float]:
    """R and r' of the fattest torus with a round tube that the blank holds."""
    rows = _limits(blank, wood)
    best = (0.0, 0.0)
    for first, second in combinations(rows, 2):
        matrix = np.array((first[:2], second[:2]))
        if abs(np.linalg.det(matrix)) < 1e-9:
            continue
        major, tube = np.linalg.solve(matrix, (first[2], second[2]))
        fits = all(p * major + q * tube <= limit + 1e-7 for p, q, limit in rows)
        if fits and major > tube > best[1]:
            best = (float(major), float(tube))
    return best


def thickest_at(blank: Blank, wood: FloatArray, major: float) -> float:
    """r' of the fattest torus with a round tube and this major radius; 0 or less where there is none."""
    return min((limit - p * major) / q for p, q, limit in _limits(blank, wood))


def _limits(blank: Blank, wood: FloatArray) -> list[tuple[float, float, float]]:
    """(p, q, limit) of each flat: p R + q r' <= limit."""
    shape = (blank.wedge_rings, blank.segments, blank.centre)
    one, two = tube_of(1.0), tube_of(2.0)
    q = apothem_needed(0.0, two, *shape) - apothem_needed(0.0, one, *shape)
    none = apothem_needed(0.0, one, *shape) - q
    p = apothem_needed(1.0, one, *shape) - none - q
    return list(zip(p.tolist(), q.tolist(), (wood - none).tolist(), strict=True))
