"""Volumes, areas and weights as text."""

from __future__ import annotations

from jigs.job import Unit
from jigs.lengths import MM_PER_INCH

G_PER_OUNCE = 28.349523125  # international avoirdupois, exact


def volume_text(mm3: float, unit: Unit) -> str:
    """Litres, or cubic inches."""
    return f"{mm3 / 1e6:.3f} l" if unit == "mm" else f"{mm3 / MM_PER_INCH**3:.1f} in³"


def area_text(mm2: float, unit: Unit) -> str:
    """Square centimetres, or square inches."""
    return f"{mm2 / 1e2:.0f} cm²" if unit == "mm" else f"{mm2 / MM_PER_INCH**2:.1f} in²"


def weight_text(grams: float, unit: Unit) -> str:
    """Grams, or ounces."""
    return f"{grams:.0f} g" if unit == "mm" else f"{grams / G_PER_OUNCE:.1f} oz"
