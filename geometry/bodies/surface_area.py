"""The surface of a vessel, by the exact edges of its section. Lengths mm, areas mm²."""

from __future__ import annotations

from math import pi, sin

from geometry.bodies.section import Section
from geometry.plane.edges import Edge
from geometry.plane.profile import Profile
from geometry.records import Record

_SMALL = 1e-3  # radians, of half an arc: below it the series is the more exact


def revolved_area(profile: Profile) -> float:
    """Of the surface that a profile draws round the axis: 2π times each edge's moment (Pappus), arcs exact."""
    return 2 * pi * sum(edge.length * _mean_x(edge) for edge in profile.edges())


def _mean_x(edge: Edge) -> float:
    """Of an edge's length. An arc's centroid lies on its middle line, sin(h)/h of its radius from the centre."""
    middle = edge.midpoint[0]
    if not edge.is_arc:
        return middle
    half = abs(edge.angle) / 2
    short = half**2 / 6 if half < _SMALL else 1 - sin(half) / half
    return middle - (middle - edge.centre[0]) * short


class VesselSurface(Record):
    """Every finished surface of a vessel."""

    outside: float
    inside: float  # with the floor
    rim: float
    foot: float  # with its recess


def vessel_surface(section: Section) -> VesselSurface:
    """Outside, inside, the flat of the rim, the foot; a recess adds only its wall."""
    recess = 2 * pi * section.recess_radius * section.recess_depth
    return VesselSurface(
        outside=revolved_area(section.outer),
        inside=revolved_area(section.inner),
        rim=pi * (section.rim_radius**2 - section.mouth_radius**2),
        foot=pi * (section.foot_radius**2 - section.inner.start[0] ** 2) + recess,
    )
