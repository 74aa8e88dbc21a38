"""A ring that was put in wrongly, and joints that stay open, as the finished surface shows them."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import numpy as np
import numpy.typing as npt

from geometry.bodies.flat_rings import FlatRing, first_normal
from geometry.bodies.places import Places, ring_edges
from geometry.bodies.torus import Blank
from geometry.plane.edges import FloatArray
from jigs.looks.mistakes import Mistakes
from jigs.looks.spots import Spots

BoolArray = npt.NDArray[np.bool_]


def wrong_ring(rings: int) -> int:
    """The one of a torus that is put in wrongly, from 0: it lies to the front."""
    return 3 * rings // 4


def misplaced(places: Places, blank: Blank, mistakes: Mistakes) -> Places:
    """The same, where that ring's wood is turned by segments round its tube, or upside down: about its radial line.

    Its strips are all of one wood, and stay.
    """
    if not (mistakes.segments_on or mistakes.upside_down):
        return places
    n = blank.segments
    here = (places.ring == wrong_ring(blank.wedge_rings)) & (places.segment >= 0) & (places.segment < n)
    segment, u, y = places.segment + 0, places.u, places.y
    if mistakes.upside_down:  # segment 0 lies straight down, half of them on straight up
        segment, u, y = n // 2 - segment, -u, -y
    segment = (segment - mistakes.segments_on) % n
    return Places(
        places.ring,
        np.where(here, segment, places.segment),
        np.where(here, u, places.u),
        places.v,
        np.where(here, y, places.y),
    )


def torus_gaps(
    spots: Spots, places: Places, blank: Blank, joints: FloatArray | None, mistakes: Mistakes
) -> BoolArray:
    """Where the last joint of the closed torus, and of each ring, stays open, in the shape of the places.

    That of a ring is the one beside the segment straight up, towards the rim; that of the torus comes before ring 1.
    """
    turn = np.mod(spots.phi - ring_edges(blank, joints)[0], 2 * pi)
    last = np.pi - blank.mitre  # from the first flat, straight down
    strip = -1 - places.segment  # of a ring, which follows the segment of that number; one between rings is n
    own = 2 * blank.mitre * places.segment + np.arctan2(places.u, blank.apothem - places.v)
    round_tube = np.where(places.segment < 0, (2 * strip + 1) * blank.mitre, own)
    off = np.mod(round_tube - last + pi, 2 * pi) - pi
    of_ring = (np.abs(off) < blank.segments * mistakes.mitre) & (places.segment < blank.segments)
    return np.asarray((turn < blank.wedge_rings * mistakes.wedge) | of_ring)


def vessel_gaps(spots: Spots, places: Places, rings: Sequence[FlatRing], mistakes: Mistakes) -> BoolArray:
    """Where the last joint of each ring, before its first segment, stays open, in the shape of the places."""
    counts = np.array([one.segments for one in rings])
    last = np.array([first_normal(one) - pi / max(one.segments, 1) for one in rings])
    off = np.mod(spots.phi - last[places.ring] + pi, 2 * pi) - pi
    return np.asarray(np.abs(off) < counts[places.ring] * mistakes.mitre)
