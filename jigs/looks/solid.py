"""A turned form as pictures need it, and where rays meet it.

At each height the wood lies between two radii, that of the hollow and that of the outside. Both are broken into
chords, and between two neighbouring heights each is a cone. Lengths mm.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from geometry.bodies.meridian import DEVIATION, Meridian
from geometry.bodies.section import Section
from geometry.bodies.tube import Tube
from geometry.plane.edges import BoolArray, FloatArray, IntArray
from geometry.plane.profile import Profile
from geometry.records import Record

SLABS = 80  # at least so many in the whole height, that no ray steps over wood between two of them
BLOCK, SLABS_AT_ONCE = 8192, 12  # rays and slabs at a time: what fits the processor's cache
HALVINGS = 12  # of a slab
HOLLOW, OUTSIDE = 0, 1

Singles = npt.NDArray[np.float32]


class Solid(Record, eq=False):
    """Slabs between the heights z (m + 1,): radii (m, 2, 2) of hollow and outside, each at its foot and top.

    `normals` (m, 2, 2, 2) likewise, as (x, z), leaving the wood.
    """

    z: FloatArray
    radii: FloatArray
    normals: FloatArray


class Rays(Record, eq=False):
    """Origins and directions, (n, 3) each; none runs upward, and all start off the solid's wood and its hollow."""

    origins: FloatArray
    directions: FloatArray

    def at(self, t: FloatArray) -> FloatArray:
        return self.origins + t[:, None] * self.directions

    def some(self, chosen: IntArray) -> Rays:
        return Rays(self.origins[chosen], self.directions[chosen])


class Hits(Record, eq=False):
    """The first places at which rays meet the wood: which rays (k,), the points and unit normals (k, 3)."""

    rays: IntArray
    points: FloatArray
    normals: FloatArray


def torus_solid(major: float, tube: Tube) -> Solid:
    sides = []
    for ccw in (False, True):
        low, top = (0.0, -tube.high), (0.0, tube.high)
        rows = [*tube.run(low, top, ccw), (*top, 0.0)]
        sides.append(Profile(np.array([(major + x, y, bulge) for x, y, bulge in rows])))
    return two_sided(*sides)


def vessel_solid(section: Section) -> Solid:
    """The hollow is that of the foot's recess, nothing in the floor, then the inside."""
    r, d = section.recess_radius, section.recess_depth
    below = [(r, 0.0, 0.0), (r, d, 0.0), (0.0, d, 0.0)] if r and d else [(0.0, 0.0, 0.0)]
    if section.through:
        return two_sided(section.inner, section.outer)
    return two_sided(Profile(np.concatenate((below, section.inner.vertices))), section.outer)


def two_sided(hollow: Profile, outer: Profile) -> Solid:
    """Of two chains that rise from one height to another."""
    tallest = (outer.end[1] - outer.start[1]) / SLABS
    sides = []
    for line, turned in ((hollow, -1.0), (outer, 1.0)):
        found = Meridian(line).at(Meridian(line).chords(DEVIATION, tallest))
        sides.append((found.points, turned * found.normals))
    z = np.unique(np.concatenate([points[:, 1] for points, _ in sides]))
    z = z[np.concatenate(([True], np.diff(z) > 1e-7))]
    tables = [_at_ends(z, *side) for side in sides]
    radii, normals = (np.stack(part, axis=1) for part in zip(*tables, strict=True))
    return Solid(z, radii, normals)


def _at_ends(z: FloatArray, points: FloatArray, normals: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Radii (m, 2) and normals (m, 2, 2) of a chain at the foot and the top of each slab, seen from within it."""
    middle = (z[:-1] + z[1:]) / 2
    k = np.clip(np.searchsorted(points[:, 1], middle) - 1, 0, len(points) - 2)
    (low, high), rise = (points[k, 1], points[k + 1, 1]), points[k + 1, 1] - points[k, 1]
    t = np.stack((z[:-1] - low, z[1:] - high + rise), axis=1) / rise[:, None]
    radii = points[k, 0][:, None] * (1 - t) + points[k + 1, 0][:, None] * t
    along = normals[k][:, None] * (1 - t)[..., None] + normals[k + 1][:, None] * t[..., None]
    return np.maximum(radii, 0.0), along


def hits(solid: Solid, rays: Rays) -> Hits:
    """Where rays first meet the wood. Level rays meet the outside only: they start beside it."""
    level = rays.directions[:, 2] == 0.0
    found = [_level_hits(solid, rays, np.flatnonzero(level))] if level.any() else []
    falling = np.flatnonzero(~level)
    for k in range(0, len(falling), BLOCK):
        found.append(_falling_hits(solid, rays, falling[k : k + BLOCK]))
    return Hits(*(np.concatenate([getattr(part, name) for part in found]) for name in vars(found[0])))


def _level_hits(solid: Solid, rays: Rays, which: IntArray) -> Hits:
    own = rays.some(which)
    o, d = own.origins[:, :2], own.directions[:, :2]
    slab = np.clip(np.searchsorted(solid.z, own.origins[:, 2]) - 1, 0, len(solid.z) - 2)
    radius, _ = _side(solid, slab, own.origins[:, 2], np.full(len(which), OUTSIDE))
    along = -_level_dot(o, d)
    half = radius**2 - _level_dot(o, o) + along**2
    within = (solid.z[0] <= own.origins[:, 2]) & (own.origins[:, 2] <= solid.z[-1]) & (half > 0)
    kept = np.flatnonzero(within)
    points = own.some(kept).at(along[kept] - np.sqrt(half[kept]))
    return _finished(solid, which[kept], points, slab[kept], np.full(len(kept), OUTSIDE))


def _falling_hits(solid: Solid, rays: Rays, which: IntArray) -> Hits:
    which = which[_near(solid, rays.some(which))]
    own = rays.some(which)
    slope = own.directions[:, :2] / own.directions[:, 2:]
    foot = own.origins[:, :2] - slope * own.origins[:, 2:]  # where the ray has come to at height 0
    squares = _level_dot(slope, slope), 2 * _level_dot(slope, foot), _level_dot(foot, foot)
    kept, slab, side, lid = _entered(solid, *(part.astype(np.float32) for part in squares))
    height = _crossing(solid, slab, side, *(part[kept] for part in squares))
    height = np.where(lid, solid.z[slab + 1], height)
    points = np.column_stack((foot[kept] + slope[kept] * height[:, None], height))
    found = _finished(solid, which[kept], points, slab, side)
    found.normals[lid] = (0.0, 0.0, 1.0)
    return found


def _entered(
    solid: Solid, a: Singles, b: Singles, c: Singles
) -> tuple[IntArray, IntArray, IntArray, BoolArray]:
    """Which rays, of squared radius (a z + b) z + c, come into the wood, in which slab, from which side.

    And whether through a level lid on the slab's top. A ray that is in the wood at the top end goes through a lid.
    Single precision tells 0.0001 mm apart at 100 mm, which is enough to find the slab, in half the time.
    """
    heights, squares = solid.z.astype(np.float32), (solid.radii**2).astype(np.float32)
    count = len(solid.z) - 1
    alive, before = np.arange(len(a)), np.ones(len(a), dtype=np.int8)
    found = []
    for top in range(count, 0, -SLABS_AT_ONCE):
        slabs = np.arange(top - 1, max(top - SLABS_AT_ONCE, 0) - 1, -1)
        z = heights[np.append(slabs[0] + 1, slabs)][:, None]
        squared = (a[alive] * z + b[alive]) * z + c[alive]
        bounds = squares[slabs, :, :, None]
        at_top, at_foot = _region(squared[:-1], bounds[:, :, 1]), _region(squared[1:], bounds[:, :, 0])
        lids = (at_top == 0) & (np.concatenate((before[None], at_foot[:-1])) != 0)
        met = lids | (at_foot != at_top)
        hit = met.any(axis=0)
        kept = np.flatnonzero(hit)
        row = met[:, kept].argmax(axis=0)
        side = np.where(at_top[row, kept] > 0, OUTSIDE, HOLLOW)
        found.append((alive[kept], slabs[row], side, lids[row, kept]))
        alive, before = alive[~hit], at_foot[-1, ~hit]
    rays, slab, side, lid = (np.concatenate(part) for part in zip(*found, strict=True))
    return rays, slab, side, lid


def _near(solid: Solid, rays: Rays) -> IntArray:
    """Which rays come within the largest radius between the solid's ends."""
    o, d = rays.origins, rays.directions
    ends = (solid.z[[-1, 0]] - o[:, 2:]) / d[:, 2:]
    level = _level_dot(d, d)
    t = np.clip(-_level_dot(o, d) / np.where(level > 0, level, 1.0), ends[:, 0], ends[:, 1])
    place = o[:, :2] + t[:, None] * d[:, :2]
    nearest = _level_dot(place, place)
    return np.flatnonzero(nearest <= solid.radii.max() ** 2)


def _level_dot(a: FloatArray, b: FloatArray) -> FloatArray:
    return np.asarray(a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1])


def _region(squared: Singles, bounds: Singles) -> npt.NDArray[np.int8]:
    """-1 in the hollow, 0 in the wood, 1 outside, of squared radii (m, n) between squared bounds (m, 2, 1)."""
    outside, hollow = squared > bounds[:, OUTSIDE], squared < bounds[:, HOLLOW]
    return np.asarray(outside.view(np.int8) - hollow.view(np.int8))


def _crossing(
    solid: Solid, slab: IntArray, side: IntArray, a: FloatArray, b: FloatArray, c: FloatArray
) -> FloatArray:
    """The height at which rays go through a slab's cone, by halving."""
    low, high = solid.z[slab], solid.z[slab + 1]
    foot, top = solid.radii[slab, side].T
    rate = (top - foot) / (high - low)
    start = low
    sign = np.where(side == OUTSIDE, 1.0, -1.0)
    for _ in range(HALVINGS):
        z = (low + high) / 2
        off = sign * ((a * z + b) * z + c - (foot + rate * (z - start)) ** 2) > 0
        low, high = np.where(off, low, z), np.where(off, z, high)
    return (low + high) / 2


def _side(solid: Solid, slab: IntArray, z: FloatArray, side: IntArray) -> tuple[FloatArray, FloatArray]:
    """Radius (n,) and normal (n, 2) of a side at heights within slabs."""
    t = ((z - solid.z[slab]) / (solid.z[slab + 1] - solid.z[slab]))[:, None]
    radii, normals = solid.radii[slab, side], solid.normals[slab, side]
    return (radii[:, :1] * (1 - t) + radii[:, 1:] * t)[:, 0], normals[:, 0] * (1 - t) + normals[:, 1] * t


def _finished(solid: Solid, which: IntArray, points: FloatArray, slab: IntArray, side: IntArray) -> Hits:
    """With the normals there."""
    _, normal = _side(solid, slab, points[:, 2], side)
    normal = normal / np.maximum(np.hypot(*normal.T), 1e-12)[:, None]
    radius = np.maximum(np.hypot(points[:, 0], points[:, 1]), 1e-12)
    level = normal[:, :1] * points[:, :2] / radius[:, None]
    return Hits(which, points, np.column_stack((level, normal[:, 1])))
