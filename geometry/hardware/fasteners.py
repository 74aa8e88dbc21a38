"""Bolts: clearance holes (ISO 273, for inches ASME B18.2.8), and how long they have to be."""

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


# Under the head, as they are sold; nuts high at most, washers thick. From memory.
LENGTHS = (*range(10, 20, 2), *range(20, 70, 5), *range(70, 160, 10), *range(160, 220, 20))  # ISO 4762
INCH_LENGTHS = (*(n / 4 for n in range(2, 17)), *(n / 2 for n in range(9, 17)))
LOCK_NUTS = {
    **{"M4": 5.0, "M5": 6.8, "M6": 8.0, "M8": 9.5, "M10": 11.9, "M12": 14.9},  # ISO 7040
    **{"1/4 in": 8.3, "5/16 in": 9.5, "3/8 in": 11.5},  # ASME B18.16.6
}
WASHERS = {
    **{"M4": 0.8, "M5": 1.0, "M6": 1.6, "M8": 1.6, "M10": 2.0, "M12": 2.5},  # ISO 7089
    **{"1/4 in": 2.1, "5/16 in": 2.1, "3/8 in": 2.1},  # ASME B18.22.1
}
PAST_NUT = 1.0  # of thread


def bolt_length(bolt: str, through: float, washers: int = 2) -> float | None:
    """Length (mm) under the head of the shortest bolt sold that goes through so much wood, washers and a lock nut.

    None where none is long enough: threaded rod does it. Raises KeyError for an unknown bolt.
    """
    least = through + washers * WASHERS[bolt] + LOCK_NUTS[bolt] + PAST_NUT
    return next((length for length in _sold(bolt) if length >= least), None)


def sunk_length(bolt: str, through: float) -> float:
    """Length (mm) of the longest bolt sold that ends below the wood's face, its nut let in."""
    return max(length for length in _sold(bolt) if length <= through - 0.5)


def _sold(bolt: str) -> list[float]:
    return [25.4 * inches for inches in INCH_LENGTHS] if in_inches(bolt) else [float(mm) for mm in LENGTHS]


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
