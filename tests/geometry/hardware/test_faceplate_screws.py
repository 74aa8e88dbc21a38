"""A faceplate's screws stand what tips the work off it."""

from __future__ import annotations

from math import cos, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.hardware.fittings import FACEPLATE, HOLDS, fittings_for, screws_for


@given(moment=st.floats(1e3, 1e6), inches=st.booleans(), thick=st.floats(18, 60), across=st.floats(40, 500))
def test_on_the_circle_that_is_told_no_screw_is_pulled_too_hard(
    moment: float, inches: bool, thick: float, across: float
) -> None:
    screws = screws_for(fittings_for(inches), across, thick, moment)
    radius = (screws.on or FACEPLATE) / 2
    arms = [radius * (1 + cos(2 * pi * k / screws.count)) for k in range(screws.count)]
    most = moment * max(arms) / sum(arm**2 for arm in arms)
    stands = HOLDS * screws.across * screws.depth
    assert most == pytest.approx(stands) if screws.on else most <= stands
    assert not screws.on or screws.count == 8


def test_an_inch_of_a_number_ten_screw_in_spruce_holds_what_is_published() -> None:
    """engineeringtoolbox.com, wood screws, allowable withdrawal load: 109 lb for 0.45 g/cm3."""
    assert pytest.approx(109 * 4.448, rel=0.01) == HOLDS * (0.45 / 0.5) ** 2 * 0.19 * 25.4 * 25.4
