"""How much of a torus and of its blank each segment of a wedge ring is.

Frame of one wedge ring: x radial, y along the tube, z up; its centre at R_p; polar (q, a) round the centre.
Lengths mm, volumes mm³, angles radians.
"""

from __future__ import annotations

from math import cos, tan

import numpy as np

from geometry.bodies.torus import Blank, flat_normals
from geometry.bodies.tube import Tube
from geometry.plane.edges import FloatArray

_ROUND, _ALONG = 24, 12  # places of the quadrature: round a segment, along half of a wedge ring


def blank_shares(blank: Blank) -> FloatArray:
    """Of each segment of one wedge ring as glued, (n,), the first flat straight down.

    The section is n alike trapezoids; the wedge ring is 2·x·tan w long at x, so each has its area times its
    length at its own centroid.
    """
    area = tan(blank.mitre) * (blank.apothem**2 - blank.core_apothem**2)
    whole = 2 * tan(blank.half_wedge) * area * segment_middles(blank)
    return np.asarray(whole - _halves(blank_strip_shares(blank)))


def segment_middles(blank: Blank) -> FloatArray:
    """How far off the torus's axis the middle of each segment's section lies, (n,), the first flat straight down."""
    a, c = blank.apothem, blank.core_apothem
    out = 2 / 3 * (a**3 - c**3) / (a**2 - c**2)
    return np.asarray(blank.centre + out * np.cos(flat_normals(blank.segments)))


def blank_strip_shares(blank: Blank) -> FloatArray:
    """Of the strip after each segment, (n,), its ends flush: a slab as long anywhere as its joint is deep."""
    out = (blank.apothem + blank.core_apothem) / 2 / cos(blank.mitre) - blank.spacer / 4 * tan(blank.mitre)
    middles = blank.centre + out * np.cos(flat_normals(blank.segments) + blank.mitre)
    return np.asarray(2 * tan(blank.half_wedge) * blank.spacer * blank.joint_depth * middles)


def _halves(strips: FloatArray) -> FloatArray:
    """What a strip takes of the two segments beside it, half each."""
    return np.asarray((strips + np.roll(strips, 1)) / 2)


def torus_shares(major: float, tube: Tube, blank: Blank) -> FloatArray:
    """Of each segment after turning, (n,), the first flat straight down; the core is no wood.

    In the plane at the angle f from the ring's middle, x = ρ·cos f, so the wood of a direction a runs from the
    core's flat to where (R_p + q·cos a)/cos f is on the tube: a quadratic in q. Gauss-Legendre over a and f.
    """
    nodes, weights = (np.asarray(part) for part in np.polynomial.legendre.leggauss(_ROUND))
    along, shares = (np.asarray(part) for part in np.polynomial.legendre.leggauss(_ALONG))
    turn = nodes * blank.mitre  # from the middle of a segment
    a = (flat_normals(blank.segments)[:, None] + turn)[:, :, None]  # (n, round, 1)
    cos_f = np.cos(along * blank.half_wedge)  # (along,)
    inner = (blank.core_apothem / np.cos(turn))[:, None]
    outer = _reach(major, tube, blank.centre, np.cos(a), np.sin(a), cos_f)
    filled = (_moment(outer, blank.centre, np.cos(a)) - _moment(inner, blank.centre, np.cos(a))) / cos_f**2
    whole = np.einsum("nrf,r,f->n", filled, weights, shares) * blank.mitre * blank.half_wedge
    return np.asarray(whole - _halves(torus_strip_shares(major, tube, blank)))


def torus_strip_shares(major: float, tube: Tube, blank: Blank) -> FloatArray:
    """Of the strip after each segment once it is turned, (n,): by its middle plane, its thickness being small."""
    if not blank.spacer:
        return np.zeros(blank.segments)
    along, shares = (np.asarray(part) for part in np.polynomial.legendre.leggauss(_ALONG))
    a = (flat_normals(blank.segments) + blank.mitre)[:, None]  # (n, 1)
    cos_f = np.cos(along * blank.half_wedge)
    inner = blank.core_apothem / cos(blank.mitre)
    outer = _reach(major, tube, blank.centre, np.cos(a), np.sin(a), cos_f)
    filled = (blank.centre * (outer - inner) + (outer**2 - inner**2) / 2 * np.cos(a)) / cos_f**2
    return np.asarray(filled @ shares * blank.spacer * blank.half_wedge)


def _reach(
    major: float, tube: Tube, centre: float, cos_a: FloatArray, sin_a: FloatArray, cos_f: FloatArray
) -> FloatArray:
    """Distance q from the ring's centre to the tube's surface in the direction a, at the angle f.

    An ellipse is a circle once its heights are stretched.
    """
    square = (cos_a / cos_f) ** 2 + (sin_a * (tube.wide / tube.high)) ** 2
    half = (centre / cos_f - major) * cos_a / cos_f
    rest = (centre / cos_f - major) ** 2 - tube.wide**2
    return np.asarray((np.sqrt(half**2 - square * rest) - half) / square)


def _moment(q: FloatArray, centre: float, cos_a: FloatArray) -> FloatArray:
    """The integral of x·q dq, x = R_p + q·cos a."""
    return centre * q**2 / 2 + cos_a * q**3 / 3
