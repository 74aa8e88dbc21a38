"""What spreads the mouth of a round wall pulls round it. Lengths mm, forces N, stresses N/mm²."""

from __future__ import annotations

from math import pi, sqrt

from geometry.bodies.tube import Tube


def edge_hoop(spread: float, radius: float, wall: float) -> float:
    """The greatest tension round a thin wall whose edge is pressed outward by `spread`, all round together.

    A long cylinder with a load q of each mm along its edge: 2 q β R / t with β⁴ = 3 / (R t)², Poisson's ratio left
    out (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, from memory). `radius` is the wall's middle.
    """
    load = spread / (2.0 * pi * radius)
    return 2.0 * load * sqrt(sqrt(3.0) / (radius * wall)) * radius / wall


def ring_hoop(spread: float, major: float, tube: Tube, core: float) -> float:
    """The greatest tension round a closed ring whose hole is pressed outward by `spread`, all round
    together.

    All of a section moves outward alike, so that the strain falls with the radius, as in a curved bar that does not
    bend (Winkler's, any handbook of mechanics, from memory): T / (ρ ∫ dA/ρ) with T = spread / 2π, the integral over a
    circle about R being 2π (R - √(R² - r²)), and over an ellipse as much as it is higher than that. What presses and
    what bears square to a round tube passes through its middle, and turns no section; of another, `ring_twist` tells.
    `core` is the radius of a circle that holds the core.
    """
    over_radius = _area_over_radius(major, tube.wide) * (tube.high / tube.wide) - _area_over_radius(
        major, core
    )
    return spread / (2.0 * pi) / ((major - tube.wide) * over_radius)


def ring_twist(couple: float, tube: Tube, core: float) -> float:
    """The greatest tension round a closed ring each of whose sections is turned in its own plane, all round together.

    Couples m of each mm round it bend it by M = m R over its height, M z / I (Timoshenko, Strength of Materials II,
    from memory); `couple` is 2π R m, N mm.
    """
    second = pi / 4.0 * (tube.wide * tube.high**3 - core**4)
    return couple / (2.0 * pi) * tube.high / second


def _area_over_radius(major: float, radius: float) -> float:
    return 2.0 * pi * (major - sqrt(major**2 - radius**2))
