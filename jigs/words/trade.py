"""Units in which wood, sheet and liquids are sold. By definition: NIST Handbook 44, appendix C; board foot 144 in3."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from jigs.words.lengths import MM_PER_INCH, Unit

Per = Literal["piece", "timber", "liquid", "weight", "area", "coat"]  # what a price or a rate is for

RATES: tuple[Per, ...] = ("area", "coat")

SQUARE_METRE = 1e6  # mm2
CUBIC_METRE = 1e9  # mm3
LITRE = 1e6  # mm3
METRE = 1000.0  # mm
FOOT = 12 * MM_PER_INCH
KILOGRAM = 1000.0  # g
SQUARE_FOOT = 144 * MM_PER_INCH**2  # mm2
BOARD_FOOT = 144 * MM_PER_INCH**3  # mm3
GALLON = 231 * MM_PER_INCH**3  # mm3, of the United States
QUART, FLUID_OUNCE = GALLON / 4, GALLON / 128
POUND = 453.59237  # g, international avoirdupois
OUNCE = POUND / 16

# What a price is for: mm3 of boards, mm3 of what is poured, g; a piece where it is for nothing else. What a rate is
# for: a square metre, or a gram on it.
SOLD: Mapping[Per, Mapping[Unit, float]] = {
    "piece": {"mm": 1.0, "in": 1.0},
    "timber": {"mm": CUBIC_METRE, "in": BOARD_FOOT},
    "liquid": {"mm": LITRE, "in": QUART},
    "weight": {"mm": KILOGRAM, "in": POUND},
    "area": {"mm": 1.0, "in": SQUARE_FOOT / SQUARE_METRE},
    "coat": {"mm": 1.0, "in": SQUARE_FOOT / SQUARE_METRE / OUNCE},
}
