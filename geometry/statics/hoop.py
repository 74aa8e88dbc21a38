"""What spreads the mouth of a round wall pulls round it. Lengths mm, forces N, stresses N/mm²."""

from __future__ import annotations

from math import pi, sqrt


def edge_hoop(spread: float, radius: float, wall: float) -> float:
    """The greatest tension round a thin wall whose edge is pressed outward by `spread`, all round together.

    A long cylinder with a load q of each mm along its edge: 2 q β R / t with β⁴ = 3 / (R t)², Poisson's ratio left
    out (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, from memory). `radius` is the wall's middle.
    """
    load = spread / (2.0 * pi * radius)
    return 2.0 * load * sqrt(sqrt(3.0) / (radius * wall)) * radius / wall


def ring_hoop(spread: float, major: float, tube: float, core: float) -> float:
    """The greatest tension round a closed ring of round section whose hole is pressed outward by `spread`, all round
    together.

    All of a section moves outward alike, so that the strain falls with the radius, as in a curved bar that does not
    bend (Winkler's, any handbook of mechanics, from memory): T / (ρ ∫ dA/ρ) with T = spread / 2π, the integral over a
    circle about R being 2π (R - √(R² - r²)). What presses and what bears square to the tube passes through its middle,
    and turns no section. `core` is the radius of a circle that holds the core.
    """
    over_radius = _area_over_radius(major, tube) - _area_over_radius(major, core)
    return spread / (2.0 * pi) / ((major - tube) * over_radius)


def _area_over_radius(major: float, radius: float) -> float:
    return 2.0 * pi * (major - sqrt(major**2 - radius**2))
