"""How far a point of the surface is from the nearest glued face. Lengths mm, angles radians."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, tan

import numpy as np

from geometry.bodies.flat_rings import FlatRing, first_normal
from geometry.bodies.places import Places, joint_distance
from geometry.bodies.torus import Blank
from geometry.plane.arcs import FloatArray
from jigs.looks.spots import Spots


def torus_from_joint(
    spots: Spots, places: Places, blank: Blank, joints: FloatArray | None = None
) -> FloatArray:
    """From the nearest mitre or wedge face, in the shape of the places; a strip has two faces."""
    between = joint_distance(blank, spots.phi, spots.radius, joints)
    mitre = ((blank.apothem - places.v) * tan(blank.mitre) - np.abs(places.u)) * cos(blank.mitre)
    if blank.spacer:
        mitre = np.abs(np.where(places.segment < 0, np.abs(places.u), mitre) - blank.spacer / 2)
    if blank.ring_spacer:
        between = np.abs(between - blank.ring_spacer / 2)
        mitre = np.where(places.segment == blank.segments, np.inf, mitre)
    return np.asarray(np.minimum(between, mitre))


def vessel_from_joint(spots: Spots, places: Places, rings: Sequence[FlatRing]) -> FloatArray:
    """From the nearest upright or level face, the latter measured down the surface."""
    bottoms = np.array([one.bottom for one in rings])
    tops = np.array([one.bottom + one.height for one in rings])
    level = np.minimum(np.abs(spots.z - bottoms[places.ring]), np.abs(tops[places.ring] - spots.z))
    level = level / np.maximum(np.abs(spots.out), 1e-9)
    pitch = 2 * pi / np.array([max(one.segments, 1) for one in rings])[places.ring]
    turn = np.abs(spots.phi - np.array([first_normal(one) for one in rings])[places.ring]) / pitch
    turn = pitch * np.abs(turn - np.round(turn))
    gap = np.array([one.gap for one in rings])[places.ring]
    disc = np.array([not one.segments for one in rings])[places.ring]
    upright = np.abs(spots.radius * np.sin(pitch / 2 - turn) - gap / 2)
    return np.asarray(np.minimum(level, np.where(disc, np.inf, upright)))
