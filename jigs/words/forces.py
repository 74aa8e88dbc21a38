"""Forces, weights and stresses as people read them. N and N/mm²."""

from __future__ import annotations

from math import ceil

from jigs.words.lengths import MM_PER_INCH, Unit

_N_PER_POUND = 4.4482216152605  # pound-force, exact
_GRAVITY = 9.80665  # N for each kg, standard


def force_text(newtons: float, unit: Unit) -> str:
    """Newtons, or pounds of force."""
    return f"{newtons:.0f} N" if unit == "mm" else f"{newtons / _N_PER_POUND:.0f} lbf"


def weight_text(newtons: float, unit: Unit) -> str:
    """A force as the weight that a kitchen scale shows, rounded up to half a kilogram or a pound."""
    if unit == "mm":
        return f"{ceil(2 * newtons / _GRAVITY) / 2:g} kg"
    return f"{ceil(newtons / _N_PER_POUND)} lb"


def stress_text(stress: float, unit: Unit) -> str:
    """N/mm², or pounds on a square inch."""
    return f"{stress:.1f} N/mm²" if unit == "mm" else f"{stress * MM_PER_INCH**2 / _N_PER_POUND:.0f} psi"
