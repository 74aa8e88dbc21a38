"""A lid as pictures show it: its knob glued in, its top up, though it is planned upside down as it is turned."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.bodies.flat_rings import FlatRing
from geometry.bodies.meridian import Meridian, vessel_meridian
from geometry.bodies.section import Section
from geometry.plane.edges import FloatArray
from geometry.plane.profile import Profile
from geometry.records import replace
from jigs.looks.solid import Solid, two_sided
from jigs.plans.shape import VesselShape
from jigs.plans.vessel import VesselPlan
from jigs.stages.knob.plan import KnobPlan

OVER = np.array((1.0, -1.0, -1.0))  # half a turn about x, of points (n, 3)


def shown_knob(plan: VesselPlan | VesselShape) -> KnobPlan | None:
    """A lid whose top is hollow shows none."""
    return None if plan.section.recess_depth else plan.knob


def with_knob(section: Section, knob: KnobPlan) -> tuple[Meridian, Solid]:
    """The lid and the knob under it, its shoulder on the lid's top at height 0."""
    side = knob.profile.reversed().vertices * np.array((1.0, -1.0, -1.0))
    tip = np.array(((0.0, -knob.height, 0.0),))
    meridian = np.concatenate((tip, side, vessel_meridian(section).line.vertices[1:]))
    hollow = np.concatenate((tip, section.inner.vertices))
    outer = np.concatenate((side, section.outer.vertices))
    return Meridian(Profile(meridian)), two_sided(Profile(hollow), Profile(outer))


def knob_ring(rings: Sequence[FlatRing], knob: KnobPlan) -> tuple[FlatRing, ...]:
    """The rings of the lid with one more under them, its grain upright."""
    first = rings[0]
    lowest = replace(first, bottom=0.0, height=first.bottom + first.height)
    below = FlatRing(-knob.height, knob.height, 0, knob.widest / 2, staves=True)
    return (below, lowest, *rings[1:])


def turned_over(solid: Solid) -> Solid:
    """The same upside down."""
    z = -solid.z[::-1]
    normals = solid.normals[::-1, :, ::-1] * np.array((1.0, -1.0))
    return Solid(z, solid.radii[::-1, :, ::-1], normals)


def over(points: FloatArray) -> FloatArray:
    """Points or normals (n, 3) of what is turned over, where they were."""
    return np.asarray(points * OVER)
