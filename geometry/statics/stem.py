"""What a turned stem stands: bending by a push square to the axis. Lengths mm, forces N, stresses N/mm²."""

from __future__ import annotations

from math import pi


def bending(force: float, arm: float, outer: float, inner: float = 0.0) -> float:
    """The stress at the outside of a round of these radii, `arm` below a push: M / (π (R⁴ - r⁴) / 4R)."""
    return force * arm * 4.0 * outer / (pi * (outer**4 - inner**4))


def least_diameter(force: float, arm: float, allowed: float) -> float:
    """Of a solid round that stands a push at this arm: d³ = 32 M / (π σ)."""
    return float((32.0 * force * arm / (pi * allowed)) ** (1.0 / 3.0))
