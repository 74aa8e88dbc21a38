"""Units of the trade against what is published of them.

Board feet = thickness in inches x width in inches x length in feet / 12, and a gallon of 231 cubic inches: US Navy
training manual 14069, page 52 (engineeringtraining.tpub.com). Litres of a board foot, of a fluid ounce and grams of a
pound: NIST SP 811, appendix B.8, from memory; they follow from these and the inch of 25.4 mm.
"""

import pytest

from jigs.render.lines import shown
from jigs.words.quantity import Quantity
from jigs.words.trade import BOARD_FOOT, FLUID_OUNCE, GALLON, LITRE, OUNCE, POUND, QUART, SQUARE_FOOT

INCH = 25.4


def board_feet(thick: float, wide: float, long: float) -> float:
    """Inches, inches, feet."""
    return thick * wide * long / 12


@pytest.mark.parametrize(("thick", "wide", "long"), [(1, 12, 1), (2, 4, 300), (1.125, 6, 8)])
def test_board_feet_of_a_board(thick: float, wide: float, long: float) -> None:
    volume = thick * wide * (12 * long) * INCH**3
    assert volume / BOARD_FOOT == pytest.approx(board_feet(thick, wide, long))
    told = shown(Quantity("volume", "", volume, "timber"), "in")
    assert told == f"{board_feet(thick, wide, long):.1f} board feet"


def test_liquids_and_weights_by_definition() -> None:
    assert pytest.approx(231 * INCH**3) == GALLON
    assert pytest.approx(4 * QUART) == GALLON
    assert pytest.approx(128 * FLUID_OUNCE) == GALLON
    assert pytest.approx(12**2 * INCH**2) == SQUARE_FOOT
    assert pytest.approx(16 * OUNCE) == POUND


def test_what_they_are_in_litres_and_grams() -> None:
    assert pytest.approx(2.359737, rel=1e-6) == BOARD_FOOT / LITRE
    assert pytest.approx(2.957353e-2, rel=1e-6) == FLUID_OUNCE / LITRE
    assert pytest.approx(28.34952, rel=1e-6) == OUNCE
