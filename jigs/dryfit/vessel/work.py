"""The work as the job asks for it: section, and what is left on it, by brute force on fine polygons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property, lru_cache
from math import ceil, cos, sin

import numpy as np
import shapely

from geometry.bodies.section import Section
from geometry.plane.edges import FloatArray
from geometry.plane.profile import Profile
from geometry.records import Record
from jigs.asked.inside import inside_of
from jigs.asked.vessel_job import VesselJob

STEP = 0.4  # mm between points on arcs
ROUND = 128  # chords in a quarter turn
ON = 40.0  # mm that the ends are lengthened by before they are grown
TOUCH = 1e-5  # mm
FAR = 5000.0  # mm


class Work(Record, eq=False):
    """The finished vessel and, for any offset, the line along its outside or inside; z is up from the foot."""

    job: VesselJob
    section: Section
    glued: tuple[int, float] | None = None  # rings that stand, and the height at which the last of them ends
    faceplate: float | None = None  # height of its face, by the set's own gauges; None where as planned
    own: Mapping[int, tuple[float | None, float | None]] = field(
        default_factory=dict
    )  # of these: sizes across

    @property
    def height(self) -> float:
        return self.section.height

    @cached_property
    def solid(self) -> shapely.Polygon:
        """Both halves of the finished section."""
        outer, inner = points_on(self.section.outer), points_on(self.section.inner)
        r, d = self.section.recess_radius, self.section.recess_depth
        under = [(0.0, d), (r, d), (r, 0.0)] if r and d else [(0.0, 0.0)]
        chains = [outer, inner[::-1]] if self.section.through else [np.array(under), outer, inner[::-1]]
        right = shapely.Polygon(np.concatenate(chains))
        left = shapely.affinity.scale(right, -1.0, 1.0, origin=(0.0, 0.0))
        both = shapely.union_all([right, left], grid_size=1e-6)
        return both if isinstance(both, shapely.Polygon) else right

    def outside(self, offset: float) -> shapely.LineString:
        """From the foot up to the rim's height, true parallel, led on along its ends."""
        return _outside(self.section, offset)

    def inside(self, offset: float) -> shapely.LineString:
        """From the axis along the floor, or without one from the foot, up to the rim's height.

        True parallel on the hollow's side.
        Raises ValueError where the wood fills it.
        """
        return _inside(self.section, offset)

    def grown(self, offset: float) -> shapely.Polygon:
        """The finished section with so much left on it, square to it and round its corners."""
        return _grown(self, offset)

    def needs(self, low: float, high: float, offset: float | None = None) -> tuple[float, float] | None:
        """Least and largest radius of the section between two heights, None for nothing of it.

        It is grown by `offset`; without one by the turning allowance, as the blank must hold it.
        """
        left = self.job.rings.turning_allowance if offset is None else offset
        if high - low > 4 * TOUCH:  # what only touches either height is not between them
            low, high = low + TOUCH, high - TOUCH
        part = self.grown(left).intersection(shapely.box(0.0, low, FAR, high))
        if part.is_empty:
            return None
        least, _, most, _ = part.bounds
        return (least if least > 1e-4 else 0.0), most


def work_of(job: VesselJob) -> Work:
    """The section that the job asks for. Raises ValueError where there is none."""
    return Work(
        job, Section(job.outside.profile, inside_of(job), job.foot.recess_diameter / 2, job.foot.recess_depth)
    )


@lru_cache(maxsize=64)
def _grown(work: Work, offset: float) -> shapely.Polygon:
    return work.solid.buffer(offset, quad_segs=ROUND) if offset else work.solid


@lru_cache(maxsize=64)
def _outside(section: Section, offset: float) -> shapely.LineString:
    chain, edges = points_on(section.outer), section.outer.edges()
    first, last = _onward(edges[0].heading(0.0)), _onward(edges[-1].heading(1.0))
    low, high = chain[0] - ON * first, chain[-1] + ON * last
    wood = shapely.Polygon(np.vstack((low, chain, high, (-FAR, high[1]), (-FAR, low[1]))))
    grown = wood.buffer(offset, quad_segs=ROUND) if offset else wood
    return _rising(grown.exterior, -FAR / 2, 0.0, section.height)


@lru_cache(maxsize=64)
def _inside(section: Section, offset: float) -> shapely.LineString:
    chain = points_on(section.inner)
    way = _onward(section.inner.edges()[-1].heading(1.0))
    on = min(ON, 0.9 * chain[-1][0] / max(-way[0], 1e-9))
    down = _onward(section.inner.edges()[0].heading(0.0))
    below = [chain[0] - min(ON, 0.9 * chain[0][0] / max(down[0], 1e-9)) * down] if section.through else []
    right = np.vstack((*below, chain, chain[-1] + on * way))
    hollow = shapely.Polygon(np.vstack((right, right[::-1] * (-1.0, 1.0))))
    left = hollow.buffer(-offset, quad_segs=ROUND) if offset else hollow
    if left.is_empty:
        raise ValueError("the wood fills the inside")
    left = max(getattr(left, "geoms", [left]), key=lambda one: float(one.bounds[3]))  # where a tool gets in
    return _rising(left.exterior, 0.0, 0.0 if section.through else -FAR, section.height)


def points_on(chain: Profile) -> FloatArray:
    """Points (m, 2) on a profile, all its corners among them."""
    places = [chain.start]
    for edge in chain.edges():
        count = max(4, ceil(edge.length / STEP)) if edge.is_arc else 1
        places += [edge.point_at(k / count) for k in range(1, count)] + [edge.end]
    return np.array(places)


def _onward(along: float) -> FloatArray:
    """The way on from an end: its tangent, or straight up where that lies flatter than 45 degrees."""
    return np.array((cos(along), sin(along)) if abs(sin(along)) >= abs(cos(along)) else (0.0, 1.0))


def _rising(ring: shapely.LinearRing, left: float, low: float, high: float) -> shapely.LineString:
    """The longest part of an outline in a box, from its lower end to its upper."""
    part = shapely.line_merge(shapely.LineString(ring).intersection(shapely.box(left, low, FAR, high)))
    longest = max(getattr(part, "geoms", [part]), key=lambda line: float(line.length))
    points = np.asarray(longest.coords)
    return shapely.LineString(points if points[0, 1] <= points[-1, 1] else points[::-1])
