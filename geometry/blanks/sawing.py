"""Cutting wedge rings on the sled: where its one stop stands, and what an error does.

Plan view: the fence meets the cutting side of the blade at the apex, away from the operator, at the
angle w. A place is given by s, its distance from the apex along the fence, and u, its distance from
the fence towards the blade; the blade is the line u = s tan w. Lengths mm, angles radians.
"""

from __future__ import annotations

from math import cos, pi, sin, sqrt, tan

from geometry.bodies.torus import Blank
from geometry.records import Record

ARM = 0.8  # of half a flat, that a stop for arrises reaches along either flat


class WedgeRingCut(Record):
    """Two cuts against one stop: face 1 of the ring on the fence, then its cut face on the wedge."""

    half_wedge: float
    outer_radius: float  # from where the two faces would meet to the outer flat or arris, as cut
    ring_thickness: float
    thick_edge: float  # as cut
    thin_edge: float  # as cut
    half_width: float
    wedge_turn: float = 0.0  # by how much the wedge is made larger than pi/N, for a saw that was measured

    @property
    def wedge_angle(self) -> float:
        """Of the wedge that the second cut is made on."""
        return self.half_wedge + self.wedge_turn

    @property
    def wedge_at_stop(self) -> float:
        """Thickness of the sled's wedge at the stop; with it one stop serves both cuts."""
        return (self.ring_thickness - self.thick_edge) / 2

    @property
    def stop(self) -> float:
        """The stop's distance from the apex along the fence, for both cuts."""
        return (self.ring_thickness + self.thick_edge) / (2 * tan(self.half_wedge))

    @property
    def bearing(self) -> float:
        """Length of the cut face along the wedge."""
        return 2 * self.half_width / cos(self.half_wedge)

    def gap(self, s: float) -> float:
        """Room between fence and blade at `s`."""
        return s * tan(self.half_wedge)


def wedge_ring_cut(blank: Blank, clean_up: float, sanding: float) -> WedgeRingCut:
    """The cut that leaves the planned ring after `sanding` comes off each wedge face.

    Sanding a face by q brings it q/sin w nearer to the axis, so the ring is cut that much farther out; strips between
    rings move it out as much again by half of their thickness, so it is cut that much farther in.
    """
    w = blank.half_wedge
    outer = blank.outer_radius - blank.parted + sanding / sin(w)
    thick = 2 * outer * tan(w)
    thin = thick - 4 * blank.half_width * tan(w)
    return WedgeRingCut(w, outer, thick + 2 * clean_up, thick, thin, blank.half_width)


def included_angle_error(blank: Blank, error: float) -> float:
    """Gap left at the rim when every ring's included angle is out by `error`."""
    return blank.swing_radius * blank.wedge_rings * error


def half_chord(diameter: float, height: float) -> float:
    """Half of what a blade of `diameter`, `height` above the table, occupies at table level."""
    return sqrt(max(0.0, height * (diameter - height)))


def stop_arm(segments: int, apothem: float) -> tuple[float, float]:
    """How far either arm of a stop for arrises reaches along the fence, and up or down from the arris.

    The wedge stack begins at the arms' tips. Zeros where a flat comes to the stop, which then has no arms.
    """
    if segments % 4 == 0:
        return (0.0, 0.0)
    mitre = pi / segments
    long = ARM * apothem * tan(mitre)
    return (long * sin(mitre), long * cos(mitre))
