"""Metric clearance holes, ISO 273."""

from __future__ import annotations

from typing import Literal

Fit = Literal["fine", "medium", "coarse"]

CLEARANCE: dict[str, dict[Fit, float]] = {
    "M4": {"fine": 4.3, "medium": 4.5, "coarse": 4.8},
    "M5": {"fine": 5.3, "medium": 5.5, "coarse": 5.8},
    "M6": {"fine": 6.4, "medium": 6.6, "coarse": 7.0},
    "M8": {"fine": 8.4, "medium": 9.0, "coarse": 10.0},
    "M10": {"fine": 10.5, "medium": 11.0, "coarse": 12.0},
    "M12": {"fine": 13.0, "medium": 13.5, "coarse": 14.5},
}


def clearance_hole(bolt: str, fit: Fit = "medium") -> float:
    """Diameter (mm) of the ISO 273 clearance hole for `bolt`, such as "M8". Raises KeyError if unknown."""
    return CLEARANCE[bolt][fit]


def bolt_diameter(bolt: str) -> float:
    """Nominal diameter (mm) of `bolt`."""
    return float(bolt.removeprefix("M"))
