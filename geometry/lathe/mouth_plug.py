"""A plug that holds a vessel by its mouth: a taper that jams, or a twin of a band of the inside.

x is the radius, y the height; the inside runs from the axis along its floor and up to the mouth. Lengths mm,
angles radians.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from geometry.plane.edges import BoolArray, FloatArray, Point, lengths_of
from geometry.plane.levels import lean
from geometry.plane.profile import Profile, profile
from geometry.records import Record

LEAST_LEAN = math.radians(2)  # of a band that a push along the axis holds: common practice, no source
MOST_LEAN = math.radians(75)  # flatter than that a band no longer centres
_PITCH = 0.1  # mm along the inside
PLAY = 0.2  # mm round a plug in a mouth that is narrower than what follows: common practice, no source


class BandSearch(Record):
    """What was found on an inside: `band` is None where nothing bears, or where the mouth lets no plug in.

    `longest` is the length, along the surface, of the longest stretch that leans as it must, let in or not.
    """

    band: tuple[float, float] | None  # heights
    longest: float
    wanted: float  # the least radius of the way in by which a plug reaches such a stretch, else infinite
    throat: float  # the narrowest radius of that way


def opening(inner: Profile, reach: float) -> float:
    """How far the inside next to the mouth leans: + where it narrows towards the floor.

    The largest angle off the axis of a line from the mouth's edge to any place within `reach` of its height.
    """
    return float(_slopes(inner, reach)[:, 1].max(initial=-math.pi / 2))


def taper_reach(inner: Profile, taper: float, most: float) -> float:
    """How far in a cone goes that touches the mouth's edge, its side `taper` off the axis; at most `most`."""
    depth, angle = _slopes(inner, most).T
    in_the_way = depth[angle > taper + 1e-9]
    return float(depth[depth < in_the_way.min()].max(initial=0.0)) if len(in_the_way) else most


def _slopes(inner: Profile, reach: float) -> FloatArray:
    """Depth below the mouth, and angle off the axis seen from its edge, of places up to `reach` down, (n, 2)."""
    walk = _walk(inner)
    depth, inward = inner.end[1] - walk[:, 1], inner.end[0] - walk[:, 0]
    near = (depth > _PITCH / 10.0) & (depth <= reach + 1e-9)
    return np.column_stack((depth[near], np.arctan2(inward[near], depth[near])))


def taper_side(mouth: Point, taper: float, lining: float, reach: float, past: float) -> Profile:
    """The side of a cone, from its tip `reach` below the mouth to `past` above it.

    Measured square to the side, the mouth's edge stands `lining` away from it: at the mouth's height its
    radius is the mouth's less lining / cos(taper).
    """
    at_mouth = mouth[0] - lining / math.cos(taper)
    tip = at_mouth - reach * math.tan(taper), mouth[1] - reach
    return profile(tip, (at_mouth + past * math.tan(taper), mouth[1] + past))


def gauge_edge(bearing: Profile, fit: float, high: float) -> Profile:
    """The edge of a gauge that lies `fit` off a plug's side, from the side's lowest place up to `high`."""
    past = 5.0 * fit + 1.0  # along the ends' tangents: none lies flatter than MOST_LEAN
    first, last = bearing.edges()[0].heading(0.0), bearing.edges()[-1].heading(1.0)
    (x0, y0), (x1, y1) = bearing.start, bearing.end
    low_end = x0 - past * math.cos(first), y0 - past * math.sin(first), 0.0
    high_end = x1 + past * math.cos(last), y1 + past * math.sin(last), 0.0
    return Profile(np.vstack((low_end, bearing.vertices, high_end))).beside(fit).between(bearing.bottom, high)


def bore(inner: Profile, lining: float) -> Profile:
    """What a lining, laid along it, leaves of an inside. Raises ValueError when that is nothing."""
    return inner.beside(-lining) if lining else inner


def find_band(left: Profile, mouth: float, low: float, high: float, tall: float, least: float) -> BandSearch:
    """The highest band of the inside, between two heights, on which a plug bears that comes in by the mouth.

    `left` is the inside less the lining, `mouth` the radius that the plug passes. Everywhere on the band the
    inside narrows towards the floor, leaning 2 to 75 degrees, and nothing above it is narrower; what narrows again
    above a wider place leaves play. It is at most `tall` high and at least `least` long along the surface.
    """
    walk = _walk(left)
    z, headings = walk[:, 1], walk[:, 2]
    leans = (headings >= LEAST_LEAN) & (headings <= MOST_LEAN) & (z >= low) & (z <= high)
    needs, way = _way_in(walk[:, 0], mouth)
    enters = needs <= way + 1e-9
    longest = max((_length(walk[run]) for run in _runs(leans)), default=0.0)
    long_enough = [run for run in _runs(leans & enters) if _length(walk[run]) >= least]
    band = (float(z[long_enough[-1]][0]), float(z[long_enough[-1]][-1])) if long_enough else None
    if band:
        band = max(band[0], band[1] - tall), band[1]
    return BandSearch(band, longest, *_least_way_in(walk, needs, way, _runs(leans), least))


def _way_in(radii: FloatArray, mouth: float) -> tuple[FloatArray, FloatArray]:
    """What a plug needs of the way in to each place, and the narrowest of that way, behind any wider one, (n,) each."""
    narrowest = np.minimum.accumulate(np.minimum(radii, mouth)[::-1])[::-1]
    closes = np.flatnonzero(np.diff(radii) < -1e-9) + 1  # the way up has narrowed there
    past = np.searchsorted(closes, np.arange(len(radii)), side="right")
    again = past < len(closes)
    way = np.where(again, np.append(narrowest[closes], np.inf)[past], narrowest)
    return radii + PLAY * again, way


def _least_way_in(
    walk: FloatArray, needs: FloatArray, way: FloatArray, runs: list[slice], least: float
) -> tuple[float, float]:
    """The least radius that lets a plug reach `least` mm of a run of the surface, and what there is above it."""
    found = (math.inf, math.inf)
    for run in runs:
        along = _along(walk[run])
        if along[-1] >= least:
            place = run.start + int(np.searchsorted(along, least))
            found = min(found, (float(needs[place]), float(way[place])))
    return found


@lru_cache(maxsize=4)  # the same inside is looked at for a taper and for a band
def _walk(chain: Profile) -> FloatArray:
    """Places along a profile, both ends of every edge among them: x, y and lean, (n, 3)."""
    rows = []
    for edge in chain.edges():
        count = max(1, math.ceil(edge.length / _PITCH))
        for k in range(count + 1):
            rows.append((*edge.point_at(k / count), lean(edge.heading(k / count))))
    return np.array(rows)


def _runs(chosen: BoolArray) -> list[slice]:
    """The unbroken runs of what was chosen, in order."""
    steps = np.diff(np.concatenate(([0], chosen.astype(np.int8), [0])))
    starts, ends = np.nonzero(steps == 1)[0], np.nonzero(steps == -1)[0]
    return [slice(int(a), int(b)) for a, b in zip(starts, ends, strict=True)]


def _along(walk: FloatArray) -> FloatArray:
    """Distance of each place from the first, along the surface."""
    steps = lengths_of(np.diff(walk[:, :2], axis=0))
    return np.concatenate(([0.0], np.cumsum(steps)))


def _length(walk: FloatArray) -> float:
    return float(_along(walk)[-1])
