"""The blank that holds a torus: N wedge rings of n segments each.

Frame: the torus axis is Z. In one wedge ring's own frame x is radial, y runs along the tube and z is
up; the ring is a straight prism along y with one flat straight down. Lengths mm, angles radians.
The bounds were derived from the support function of a torus slice and hold against dense sampling.
"""

from __future__ import annotations

from math import ceil, cos, hypot, pi, sin, sqrt, tan

import numpy as np

from geometry.bodies.tube import Tube
from geometry.plane.distinct import distinct
from geometry.plane.edges import FloatArray
from geometry.records import Record, replace

_NEAR = 1e-7  # mm
ARRIS_OUT = 2  # n mod 4 of the polygons that point a corner, not a flat, at the axis


def outer_flat(apothem: float, segments: int) -> float:
    """Distance from the ring's centre to its outermost place: a flat when 4 divides n, else an arris."""
    return apothem / cos(pi / segments) if segments % 4 == ARRIS_OUT else apothem


def flat_normals(segments: int) -> FloatArray:
    """Angle from +x of each flat's outward normal, (n,), the first straight down."""
    return np.asarray(-pi / 2 + 2 * pi / segments * np.arange(segments), dtype=np.float64)


def apothem_needed(major: float, reach: Tube, wedge_rings: int, segments: int, centre: float) -> FloatArray:
    """Apothem each flat needs, (n,), for a prism centred at radius `centre` to hold a torus slice.

    `reach` is the tube with its turning allowance. Largest support of the slice |phi| <= w.
    """
    c = cos(pi / wedge_rings)
    cos_a = np.cos(flat_normals(segments))
    outward = (major - centre) * cos_a + _supports(reach, cos_a)
    inward = (major * c - centre) * cos_a + _supports(reach, cos_a, c)
    return np.asarray(np.where(cos_a >= -1e-12, outward, inward))


def _supports(tube: Tube, cos_a: FloatArray, short: float = 1.0) -> FloatArray:
    """The tube's support along normals with these cosines, its x shortened: by c at the joint of two wedge rings."""
    if tube.round:
        return np.asarray(tube.wide * np.sqrt(short**2 * cos_a**2 + 1 - cos_a**2))
    up = np.sqrt(np.maximum(0.0, 1 - cos_a**2))
    return np.array([tube.support(short * u, v) for u, v in zip(cos_a.tolist(), up.tolist(), strict=True)])


def _leaning(segments: int) -> FloatArray:
    """The distinct |cos a| > 0 over the flats."""
    cosines = np.abs(np.cos(flat_normals(segments)))
    return distinct(cosines[cosines > 1e-9].round(12))


def least_apothem(major: float, reach: Tube, wedge_rings: int, segments: int) -> tuple[float, float]:
    """Smallest apothem that holds the torus, and the radius of the ring's centre that allows it.

    Returns (apothem, centre radius). Raises ValueError unless the tube leaves a hole.
    """
    if not major > reach.wide > 0:
        raise ValueError(
            f"the tube's radius {reach.wide:g} must be positive and under the major radius {major:g}"
        )
    if not reach.round:
        return _round_ellipse(major, reach, wedge_rings, segments)
    s, c, tube = sin(pi / wedge_rings), cos(pi / wedge_rings), reach.wide
    u = _leaning(segments)
    u0 = float(u.max())
    excess = u0 * (major * u * (1 - c) - tube * (1 - np.sqrt(1 - s**2 * u**2))) / (u0 + u)
    apothem = tube + float(excess.max())
    return apothem, major - (apothem - tube) / u0


def _round_ellipse(major: float, reach: Tube, wedge_rings: int, segments: int) -> tuple[float, float]:
    """The same round an ellipse. Each flat that leans out by u asks A >= R u + h - u R_p, each that leans in
    A >= h' - R c u' + u' R_p: of each pair the A at which both hold, and what the flats up and down ask."""
    c, u = cos(pi / wedge_rings), _leaning(segments)
    out, inward = _supports(reach, u) + major * u, _supports(reach, u, c) - major * c * u
    pairs = (u[None, :] * out[:, None] + u[:, None] * inward[None, :]) / (u[:, None] + u[None, :])
    apothem = max(float(pairs.max()), reach.high)
    return apothem, sum(centre_play(major, reach, wedge_rings, segments, apothem)) / 2


def centre_play(
    major: float, reach: Tube, wedge_rings: int, segments: int, apothem: float
) -> tuple[float, float]:
    """Least and greatest radius of the ring's centre at which a ring of this apothem holds the torus."""
    s, c = sin(pi / wedge_rings), cos(pi / wedge_rings)
    u = _leaning(segments)
    if not reach.round:
        out, inward = _supports(reach, u), _supports(reach, u, c)
        return float((major - (apothem - out) / u).max()), float((major * c + (apothem - inward) / u).min())
    tube = reach.wide
    least = major - (apothem - tube) / float(u.max())
    greatest = float((major * c + (apothem - tube * np.sqrt(1 - s**2 * u**2)) / u).min())
    return least, greatest


def core_corners(centre: float, core_apothem: float, segments: int) -> FloatArray:
    """Corners (n, 2) of the core opening as (x, z) in the wedge ring's frame."""
    angles = flat_normals(segments) + pi / segments
    radius = core_apothem / cos(pi / segments)
    return np.column_stack([centre + radius * np.cos(angles), radius * np.sin(angles)])


def wall_left(
    major: float, tube: Tube, wedge_rings: int, segments: int, centre: float, core_apothem: float
) -> float:
    """Least wood between the core and the finished surface; negative when the core breaks through.

    The core's corners control, at the middle of a wedge ring and at its joints: the distance to a convex curve is
    convex, and what the core shows in a plane through the axis lies between those of its corners. A strip between two
    rings closes the core: up to tan(w)/2 of its thickness is left more than this.
    """
    c = cos(pi / wedge_rings)
    corners = core_corners(centre, core_apothem, segments)
    upper = corners[corners[:, 1] > -1e-9].tolist()  # the others mirror them
    return -max(tube.nearest(x / short - major, z)[0] for x, z in upper for short in (1.0, c))


def largest_core(
    major: float, tube: Tube, wedge_rings: int, segments: int, centre: float, least_wall: float
) -> float:
    """Largest core apothem that leaves `least_wall`, to 1e-7 mm; 0 when even a point core leaves less."""
    low, high = 0.0, min(tube.wide, tube.high)
    while high - low > _NEAR:
        middle = (low + high) / 2
        enough = wall_left(major, tube, wedge_rings, segments, centre, middle) >= least_wall
        low, high = (middle, high) if enough else (low, middle)
    return low


def least_wood(blank: Blank, major: float, tube: Tube) -> float:
    """Least distance between the blank's flats and the finished form."""
    needed = apothem_needed(major, tube, blank.wedge_rings, blank.segments, blank.centre)
    return float(blank.apothem - needed.max())


def torus_volume(major: float, tube: Tube) -> float:
    """2 pi^2 R a b (Pappus)."""
    return 2 * pi**2 * major * (tube.wide * tube.high)


def torus_surface(major: float, tube: Tube) -> float:
    """2 pi R times the tube's length round (Pappus: its centre is its middle)."""
    return 2 * pi * major * tube.around


class Blank(Record):
    """Everything glued up, before turning, at its nominal sizes (after all sanding of glue faces)."""

    wedge_rings: int
    segments: int
    apothem: float
    core_apothem: float
    centre: float  # radius of the rings' centres, R_p
    spacer: float = 0.0  # of the strip in every mitre, half of it on each side of the joint's plane
    ring_spacer: float = 0.0  # the same between wedge rings

    @property
    def half_wedge(self) -> float:
        """w = pi/N, the tilt of each face of a wedge ring."""
        return pi / self.wedge_rings

    @property
    def mitre(self) -> float:
        """mu = pi/n, the angle of each segment end."""
        return pi / self.segments

    @property
    def arris_out(self) -> bool:
        return self.segments % 4 == ARRIS_OUT

    @property
    def packing(self) -> float:
        """Paper on the sled's stop, square to its edges, for each mm by which it is to move the ring along the fence.

        Those of a V for an arris lean by mu.
        """
        return cos(self.mitre) if self.arris_out else 1.0

    @property
    def free_flat(self) -> int | None:
        """The segment above those that lie outward, from 1; None where that one lies straight up."""
        above = (self.segments + 2) // 4 + 1
        return above + 1 if above < self.segments // 2 else None

    @property
    def half_width(self) -> float:
        """A_x: from the ring's centre to its outer flat or arris."""
        return outer_flat(self.apothem, self.segments)

    @property
    def outer_radius(self) -> float:
        return self.centre + self.half_width

    @property
    def inner_radius(self) -> float:
        return self.centre - self.half_width

    @property
    def parted(self) -> float:
        """How far from the axis the faces of one ring would meet: a strip moves the ring out by t/(2 sin w)."""
        return self.ring_spacer / 2 / sin(self.half_wedge)

    @property
    def alone(self) -> Blank:
        """The blank without strips between its rings that has the same rings, nearer to its axis."""
        return replace(self, centre=self.centre - self.parted, ring_spacer=0.0)

    @property
    def thick_edge(self) -> float:
        """Of a ring without its strips."""
        return 2 * (self.outer_radius - self.parted) * tan(self.half_wedge)

    @property
    def thin_edge(self) -> float:
        return 2 * (self.inner_radius - self.parted) * tan(self.half_wedge)

    @property
    def middle_length(self) -> float:
        return 2 * (self.centre - self.parted) * tan(self.half_wedge)

    def corner(self, x: float) -> float:
        """From the axis, the corner at a joint of a ring's flat that ends so far out; strips keep it off the joint."""
        return hypot(x, (x - self.parted) * tan(self.half_wedge))

    @property
    def swing_radius(self) -> float:
        """Farthest wood from the axis: the rim's joints, before strips that stand out there are trimmed."""
        return self.outer_radius / cos(self.half_wedge)

    @property
    def flat_width(self) -> float:
        """Width of each outer flat: a segment's outer edge, and where there are strips half of one at each end."""
        return 2 * self.apothem * tan(self.mitre)

    @property
    def outer_edge(self) -> float:
        """Of a segment: a parallel strip takes half of its thickness, square to the joint, off each end."""
        return self.flat_width - self.spacer / cos(self.mitre)

    @property
    def inner_edge(self) -> float:
        """Of a segment; 0 or less where strips meet one another round the core."""
        return 2 * self.core_apothem * tan(self.mitre) - self.spacer / cos(self.mitre)

    @property
    def joint_depth(self) -> float:
        """Of a mitre, from the core's corner to the outer arris."""
        return (self.apothem - self.core_apothem) / cos(self.mitre)

    @property
    def face_area(self) -> float:
        """Of a wedge face, the core left out."""
        section = self.segments * tan(self.mitre) * (self.apothem**2 - self.core_apothem**2)
        return section / cos(self.half_wedge)

    @property
    def volume(self) -> float:
        return self._prism(self.apothem**2 - self.core_apothem**2)

    @property
    def core_volume(self) -> float:
        return self._prism(self.core_apothem**2)

    def _prism(self, squares: float) -> float:
        length = 2 * self.wedge_rings * tan(self.half_wedge) * self.centre
        return length * self.segments * tan(self.mitre) * squares


class SegmentCut(Record):
    """One mitred segment and the strip it is cut from; edges as cut, with `sanding` on each end."""

    outer_edge: float
    inner_edge: float
    depth: float
    length: float  # along the tube: the strip's width, T
    tilt: float  # blade from upright
    kerf: float

    @property
    def pitch(self) -> float:
        """Strip used for each segment when the strip is turned over between cuts."""
        return (self.outer_edge + self.inner_edge) / 2 + self.kerf / cos(self.tilt)

    def strip_length(self, count: int) -> float:
        """Least strip for `count` segments with a cut at each end, so count + 1 kerfs."""
        slant = self.kerf / cos(self.tilt)
        mean = (self.outer_edge + self.inner_edge) / 2
        return count * mean + (count + 1) * slant + (self.outer_edge - self.inner_edge) / 2


def segment_cut(blank: Blank, ring_thickness: float, kerf: float, sanding: float) -> SegmentCut:
    """The segment as cut: each end is `sanding` longer, square to its joint, than in the closed ring."""
    extra = 2 * sanding / cos(blank.mitre)
    return SegmentCut(
        outer_edge=blank.outer_edge + extra,
        inner_edge=blank.inner_edge + extra,
        depth=blank.apothem - blank.core_apothem,
        length=ring_thickness,
        tilt=blank.mitre,
        kerf=kerf,
    )


def rings_in_check(wedge_rings: int) -> int:
    """How many wedge rings come nearest to a right angle (at least 1)."""
    return max(1, ceil(wedge_rings / 4 - 0.5))


def bevel_needed(plate: float, radius: float, slack: float = 0.03) -> float | None:
    """Edge width that a flat plate may keep inside a round opening of `radius`, or None if all of it.

    A plate of thickness p rides p^2/(8 radius) high (sagitta); more than `slack` needs a bevel.
    """
    return None if plate**2 / (8 * radius) <= slack else sqrt(8 * radius * slack)
