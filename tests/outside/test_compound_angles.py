"""Compound angles of staves against printed charts and a handbook's wedge."""

import math

import pytest

from geometry.blanks.staves import StaveBand, blade_tilt, gauge_angle


def degrees(whole: float, minutes: float) -> float:
    return whole + minutes / 60


@pytest.mark.parametrize(
    # The compound-angle chart that manuals of mitre saws print alike: sides, slope of the sides from level, then M,
    # the mitre gauge, and B, the bevel, in degrees; both follow from the formula of a later test.
    # The lean is what the slope lacks of 90.
    ("sides", "slope", "gauge", "bevel"),
    [(4, 45, 35.26, 30.00), (6, 30, 26.57, 14.48), (8, 45, 16.32, 15.70), (10, 10, 17.74, 3.08)],
)
def test_angles_are_the_charts(sides: int, slope: float, gauge: float, bevel: float) -> None:
    lean, mitre = math.radians(90 - slope), math.pi / sides
    assert math.degrees(gauge_angle(lean, mitre)) == pytest.approx(gauge, abs=0.006)
    assert math.degrees(blade_tilt(lean, mitre)) == pytest.approx(bevel, abs=0.006)


def test_the_charts_one_misprint_is_not_copied() -> None:
    # Seven sides at 25 degrees: the chart has 23.56 for M; by its own formula, atan(cos P tan(180/n)), 23.579.
    assert math.degrees(gauge_angle(math.radians(65), math.pi / 7)) == pytest.approx(23.579, abs=1e-3)


def test_the_worked_example_of_six_sides() -> None:
    # A published working of compound angles, by tan M = cos P tan(180/n) and sin B = sin P sin(180/n):
    # six sides at 30 degrees: 26.565 and 14.478.
    band = StaveBand(6, 0.0, 10.0, math.radians(60), 50.0, 5.0)
    assert math.degrees(band.gauge_angle) == pytest.approx(26.565, abs=5e-4)
    assert math.degrees(band.blade_tilt) == pytest.approx(14.478, abs=1e-3)


def test_the_handbooks_compound_wedge() -> None:
    # Machinery's Handbook, 31st edition (2020), pp. 121-122: slopes of a plane seen from two sides, A 47°14'
    # and B 38°10', give the turn R 36°0.9' and the tilt C 53°12': tan R = tan B/tan A, tan C = tan A/cos R.
    # A joint is such a plane on its board: C its mitre, R what the lean lacks of 90 degrees, A the taper along
    # the board, B the slope across its end, square to the board and not to the cut as the blade is.
    a, b = math.radians(degrees(47, 14)), math.radians(degrees(38, 10))
    lean, mitre = math.radians(90 - degrees(36, 0.9)), math.radians(degrees(53, 12))
    assert gauge_angle(lean, mitre) == pytest.approx(a, abs=math.radians(degrees(0, 0.5)))
    assert blade_tilt(lean, mitre) == pytest.approx(
        math.atan(math.tan(b) * math.cos(a)), abs=math.radians(degrees(0, 0.5))
    )
