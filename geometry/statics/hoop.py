"""What a round wall, its floor and a stem stand: a mouth spread, a floor pressed, a push square to the axis.

Lengths mm, forces N, stresses N/mm².
"""

from __future__ import annotations

from math import acos, atan2, cos, hypot, inf, log, pi, sin, sqrt

from geometry.bodies.tube import Tube

# How much stiffer wood is along its grain than across it (USDA Wood Handbook, hardwoods, from memory).
STIFFER = 12.0
SHARES = ((4.0, 0.32), (5.5, 0.38))  # of a plate narrower than so many times what presses on it


def edge_hoop(spread: float, radius: float, wall: float) -> float:
    """The greatest tension round a thin wall whose edge is pressed outward by `spread`, all round together.

    A long cylinder with a load q of each mm along its edge: 2 q β R / t with β⁴ = 3 / (R t)², Poisson's ratio left
    out (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, from memory). `radius` is the wall's middle.
    """
    load = spread / (2.0 * pi * radius)
    return 2.0 * load * sqrt(sqrt(3.0) / (radius * wall)) * radius / wall


def plate_bending(force: float, plate: float, ring: float, thickness: float) -> float:
    """The greatest stress in a round plate that a ring presses in its middle, its edge half held; both are radii.

    The plate is alike all ways. Under the ring M = F ln(a/b) / 4π, Poisson's ratio left out: midway between an edge
    free to turn, which adds F (1 - b²/a²) / 8π, and one that is clamped, which takes away as much (Timoshenko and
    Woinowsky-Krieger, from memory). Nothing bends where the ring is as wide as the plate.
    """
    return 6.0 * force * log(max(plate / ring, 1.0)) / (4.0 * pi * thickness**2)


def across_bending(force: float, plate: float, ring: float, thickness: float, round_it: bool) -> float:
    """The stress across the grain of a plate of wood pressed like that.

    Where the grain runs `round_it`, as in segments, its hoops carry most. Across them M = F / 4π(√s - 1) under the ring
    at most, however wide the plate, s = STIFFER: from φ'' + φ'/r - s φ/r² = F / 2πDr, φ its slope, outside the ring.
    Where it runs one way, the share of an even plate's that Ritz's method finds (in the tests).
    """
    even = plate_bending(force, plate, ring, thickness)
    if round_it:
        return min(even, 6.0 * force / (4.0 * pi * (sqrt(STIFFER) - 1.0) * thickness**2))
    return even * next((share for wide, share in SHARES if plate < wide * ring), 0.45)


def poked(
    force: float, wall: float, radius: float = 1.0, deep: float = inf, staves: bool = False, free: bool = True
) -> float:
    """The greatest stress across the grain in a wall that a force presses outward at one place.

    By Ritz's method (in the tests), wood along its grain STIFFER. In rings M = F / 10 up the wall, pushed at its rim or
    below; half as much again beside a thick floor so little under a rim of this radius, and up to 0.27 F where a rim is
    pushed that stands closer over it. Staves bend round the wall, the more the wider it is; at a `free` rim, or less
    from two walls under it on.
    """
    if staves:
        # A plate's moments grow with the logarithm of its width over what presses on it: a tool's 4 mm, which a thick
        # wall spreads (Westergaard, after Timoshenko and Woinowsky-Krieger, from memory).
        presses = max(4.0, 0.65 * wall)
        share = 0.27 + 0.085 * log(radius / presses) if free else 0.1 + 0.0625 * log(radius / wall)
    else:
        under = deep / sqrt(radius * wall)
        share = min(max(0.1, 0.21 - 0.06 * under, 0.37 - 0.3 * under), 0.27)
    return 6.0 * share * force / wall**2


def ring_tension(spread: float, couple: float, major: float, tube: Tube, core: float) -> float:
    """The greatest tension round a closed ring whose hole is pressed outward by `spread`, and whose sections are turned
    in their planes by `couple`, N mm, each all round together.

    All of a section moves outward and turns alike, so that the strain at a height z and a radius ρ is (A + B z)/ρ, as
    in a curved bar that does not bend in its own plane (Winkler's, any handbook of mechanics, from memory): A ∫ dA/ρ
    = spread / 2π and B ∫ z² dA/ρ = couple / 2π. Both integrals are closed over a circle about R; an ellipse's are
    those of the circle as wide, by its height over its width and by the third power of that. What presses and what
    bears square to a round tube passes through its middle, and turns no section. `core` is the radius of a circle
    that holds the core.
    """
    wide, flat = tube.wide, tube.high / tube.wide
    push = spread / (2.0 * pi) / (flat * _over_radius(major, wide) - _over_radius(major, core))
    turn = (
        abs(couple)
        / (2.0 * pi)
        / (flat**3 * _heights_over_radius(major, wide) - _heights_over_radius(major, core))
    )
    # On the ellipse, at (R + a cos t, b sin t), the stress has no slope where b B R cos t + a A sin t = - a b B.
    bend = turn * tube.high
    out, up = bend * major, wide * push
    middle, aside = atan2(up, out), acos(-wide * bend / hypot(out, up))
    return max((push + bend * sin(t)) / (major + wide * cos(t)) for t in (pi, middle - aside, middle + aside))


def hole_stretched(major: float, tube: Tube) -> float:
    """By what share of what its wood swells along the tube the hole of a closed, solid ring is stretched.

    Free, each fibre along the tube would be longer by the same share, and the ring close no more. Closed, a radius ρ
    has the strain A/ρ less that share, and pulls and pushes are equal: A ∫ dA/ρ = share x area (as above), of a circle
    or an ellipse A = share (R + √(R² - a²)) / 2. The grain runs round the section, which so keeps its size. A core
    takes a little away: under a twentieth in rings that can be held.
    """
    return (major + sqrt(major**2 - tube.wide**2)) / 2.0 / (major - tube.wide) - 1.0


def rim_stretched(major: float, tube: Tube, core: float) -> float:
    """By what share of what its wood shrinks along the tube the rim of a closed ring is stretched.

    As above: all moves inward by one length, and the rim, which would shrink most, cannot. `core` is the radius of a
    circle that holds the core, which adds up to a twentieth.
    """
    flat = tube.high / tube.wide
    moves = pi * (tube.wide * tube.high - core**2) / (
        flat * _over_radius(major, tube.wide) - _over_radius(major, core)
    )  # fmt: skip
    return 1.0 - moves / (major + tube.wide)


def _over_radius(major: float, radius: float) -> float:
    """∫ dA/ρ over a circle."""
    return 2.0 * pi * (major - sqrt(major**2 - radius**2))


def _heights_over_radius(major: float, radius: float) -> float:
    """∫ z² dA/ρ over a circle."""
    over = major**2 - radius**2
    return 2.0 / 3.0 * pi * (major * radius**2 / 2.0 - over * (major - sqrt(over)))


def bending(force: float, arm: float, outer: float, inner: float = 0.0) -> float:
    """The stress at the outside of a round of these radii, `arm` below a push: M / (π (R⁴ - r⁴) / 4R)."""
    return force * arm * 4.0 * outer / (pi * (outer**4 - inner**4))


def least_diameter(force: float, arm: float, allowed: float) -> float:
    """Of a solid round that stands a push at this arm: d³ = 32 M / (π σ)."""
    return float((32.0 * force * arm / (pi * allowed)) ** (1.0 / 3.0))
