"""What is glued where two rings of a vessel lie on each other. Lengths mm, areas mm².

The lower ring comes first. Widths are radial, and the least there is round the joint.
"""

from __future__ import annotations

from math import hypot, pi

import numpy as np

from geometry.blanks.ring_stack import Ring
from geometry.bodies.section import Section
from geometry.plane.edges import FloatArray
from geometry.records import Record


def finished_width(section: Section, z: float) -> float:
    """The wall across a joint after turning, horizontally. Raises ValueError outside the vessel's height."""
    inner, outer = section.wall_at(z)
    return outer - inner


def turned_width(lower: Ring, upper: Ring) -> float:
    """Before turning, the upper ring turned by half a segment: least where corners meet flats.

    For rings of unlike numbers of segments, the least at any turn; at a turn of one's own, `ring_turns` has it.
    """
    return min(_corners_over_flats(lower, upper), _corners_over_flats(upper, lower))


def _corners_over_flats(flat: Ring, corner: Ring) -> float:
    return min(flat.outer, corner.radius) - max(flat.core, corner.core_radius)


class GlueFace(Record):
    """The face, after turning, between a segment of an open ring and one of its neighbours above or below."""

    length: float  # along the circumference at the wall's mean radius
    width: float

    @property
    def area(self) -> float:
        return self.length * self.width


def stress(face: GlueFace, force: float, arm: float) -> float:
    """The worst stress (force for each mm²) where a force pushes across a face's width, `arm` from its plane.

    Shear V/A and the pull at the edge, M/(length·width²/6), as the root of the sum of their squares.
    """
    pull = 6 * force * arm / (face.length * face.width**2)
    return hypot(force / face.area, pull)


def open_face(section: Section, lower: Ring, upper: Ring, turn: float) -> GlueFace:
    """The shorter of a segment's two faces on the ring below, where segments stand apart by their `spacer`.

    Turned by half a segment both are half the pitch less a gap; by less, one is shorter by as much as the other is
    longer. Raises ValueError unless both have the same number of segments, and where the gaps leave no such face.
    """
    if lower.segments != upper.segments or not lower.segments:
        raise ValueError("open rings are laid with the same number of segments in each")
    inner, outer = section.wall_at(upper.bottom)
    pitch = 2 * lower.mitre
    share = min(turn % pitch, -turn % pitch) / pitch
    length = share * pi * (inner + outer) / lower.segments - (lower.spacer + upper.spacer) / 2
    if length <= 0.0:
        raise ValueError(
            f"the gaps of rings {lower.number} and {upper.number} are wider than a face: nothing bridges them"
        )
    return GlueFace(length, outer - inner)


def glued_share(section: Section, lower: Ring, upper: Ring, turn: float) -> float:
    """The part of the finished wall's area at a joint that is glued, 0 to 1: all faces over the whole circle.

    Raises ValueError as `open_face` does.
    """
    open_face(section, lower, upper, turn)
    inner, outer = section.wall_at(upper.bottom)
    return 1.0 - lower.segments * (lower.spacer + upper.spacer) / (pi * (inner + outer))


_PLACES = 2880  # round the axis; 1e-4 of the area at most


def contact_area(lower: Ring, upper: Ring, turned: float) -> float:
    """Where both have wood, the upper ring turned by `turned` radians on the lower; gaps and strips as wood.

    By sectors round the axis: half the squares of the nearer outside less the farther opening.
    """
    angles = np.asarray((np.arange(_PLACES) + 0.5) * (2 * pi / _PLACES), dtype=np.float64)
    outer = np.minimum(
        _apothem_at(lower, lower.outer, angles), _apothem_at(upper, upper.outer, angles - turned)
    )
    inner = np.maximum(
        _apothem_at(lower, lower.core, angles), _apothem_at(upper, upper.core, angles - turned)
    )
    return float(np.maximum(outer**2 - inner**2, 0.0).sum() * pi / _PLACES)


def _apothem_at(ring: Ring, apothem: float, angles: FloatArray) -> FloatArray:
    """From the axis to a polygon in these directions; the middle of a flat lies at angle 0."""
    if not ring.segments:
        return np.full_like(angles, apothem)
    pitch = 2 * ring.mitre
    return np.asarray(apothem / np.cos((angles + ring.mitre) % pitch - ring.mitre))
