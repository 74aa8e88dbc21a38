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


def stress_texts(stress: float, most: float, unit: Unit) -> tuple[str, str]:
    """N/mm², or pounds on a square inch, beside the most allowed, in as many digits as tell the two apart."""
    size, name, least = (1.0, "N/mm²", 1) if unit == "mm" else (MM_PER_INCH**2 / _N_PER_POUND, "psi", 0)
    for digits in range(least, least + 4):
        texts = f"{stress * size:.{digits}f} {name}", f"{most * size:.{digits}f} {name}"
        if texts[0] != texts[1]:
            break
    return texts
