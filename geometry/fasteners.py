"""Clearance holes: ISO 273 for metric bolts, ASME B18.2.8 for inch ones."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

Fit = Literal["fine", "medium", "coarse"]

CLEARANCE: dict[str, dict[Fit, float]] = {
    "M4": {"fine": 4.3, "medium": 4.5, "coarse": 4.8},
    "M5": {"fine": 5.3, "medium": 5.5, "coarse": 5.8},
    "M6": {"fine": 6.4, "medium": 6.6, "coarse": 7.0},
    "M8": {"fine": 8.4, "medium": 9.0, "coarse": 10.0},
    "M10": {"fine": 10.5, "medium": 11.0, "coarse": 12.0},
    "M12": {"fine": 13.0, "medium": 13.5, "coarse": 14.5},
    # close, normal and loose, as metric drills
    "1/4 in": {"fine": 6.7, "medium": 7.1, "coarse": 7.5},
    "5/16 in": {"fine": 8.3, "medium": 8.7, "coarse": 9.1},
    "3/8 in": {"fine": 9.9, "medium": 10.2, "coarse": 10.5},
}


def clearance_hole(bolt: str, fit: Fit = "medium") -> float:
    """Diameter (mm) of the clearance hole for `bolt`, such as "M8" or "3/8 in". Raises KeyError if unknown."""
    return CLEARANCE[bolt][fit]


def bolt_diameter(bolt: str) -> float:
    """Nominal diameter (mm) of `bolt`."""
    if in_inches(bolt):
        return 25.4 * float(Fraction(bolt.removesuffix(" in")))
    return float(bolt.removeprefix("M"))


def in_inches(bolt: str) -> bool:
    """Whether `bolt` has an inch thread."""
    return bolt.endswith(" in")


def hole_standard(bolt: str) -> str:
    """What the usual clearance hole of `bolt` is called."""
    return "ASME B18.2.8 normal" if in_inches(bolt) else "ISO 273 medium"
