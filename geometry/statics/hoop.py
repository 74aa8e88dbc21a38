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
