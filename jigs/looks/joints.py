"""How far a point of the surface is from the nearest glued face. Lengths mm, angles radians."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, tan

import numpy as np

from geometry.bodies.flat_rings import FlatRing, first_normal
from geometry.bodies.places import Places, ring_edges
from geometry.bodies.torus import Blank
from geometry.plane.arcs import FloatArray
from jigs.looks.spots import Spots


def torus_from_joint(
    spots: Spots, places: Places, blank: Blank, joints: FloatArray | None = None
) -> FloatArray:
    """From the nearest mitre or wedge face, in the shape of the places; a strip between segments has two faces."""
    edges = ring_edges(blank, joints)
    turn = np.mod(spots.phi - edges[0], 2 * pi) + edges[0]
    between = np.minimum(turn - edges[places.ring], edges[places.ring + 1] - turn)
    mitre = ((blank.apothem - places.v) * tan(blank.mitre) - np.abs(places.u)) * cos(blank.mitre)
    if blank.spacer:
        mitre = np.abs(np.where(places.segment < 0, np.abs(places.u), mitre) - blank.spacer / 2)
    return np.asarray(np.minimum(spots.radius * np.sin(between), mitre))


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
