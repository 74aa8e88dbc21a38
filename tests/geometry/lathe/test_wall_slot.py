import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.lathe.inside_reach import rim_slot, strip
from geometry.plane.profile import profile


def leaning(wall, angle, height=80.0):
    """Two parallel straight sides that lean outward by this angle."""
    out = height * math.tan(angle)
    across = wall / math.cos(angle)
    return profile((60.0, 0.0), (60.0 + out, height)), profile(
        (60.0 - across, 0.0), (60.0 + out - across, height)
    )


@given(st.floats(2.0, 10.0), st.floats(-0.9, 0.9))
def test_a_straight_wall_takes_the_deepest_slot_and_measures_square_to_itself(wall, angle):
    slot = rim_slot(*leaning(wall, angle), 25.0, 0.2)
    assert slot.wall == pytest.approx(wall)
    assert 24.0 < slot.depth <= 25.0
    assert strip(*leaning(wall, angle), 40.0)[0] == pytest.approx(wall)


def test_a_wall_that_grows_ends_the_slot_where_it_is_a_fifth_thicker_than_allowed():
    """Grows by 1 mm in 50: 0.2 within 10 mm."""
    outer, inner = profile((60.0, 0.0), (60.0, 50.0)), profile((54.0, 0.0), (55.0, 50.0))
    slot = rim_slot(outer, inner, 25.0, 0.2)
    assert slot.wall == pytest.approx(5.0, abs=0.01)
    assert slot.depth == pytest.approx(10.0, abs=0.6)


@pytest.mark.parametrize("radius", [60.0, 120.0, 400.0])
def test_a_curved_wall_ends_the_slot_where_its_chord_sags_by_what_is_allowed(radius):
    """Over a chord c an arc of radius R sags c²/8R: the strip is wider by that."""
    bulge = math.tan(math.asin(30.0 / radius) / 2.0)
    outer = profile((60.0, 0.0, bulge), (60.0, 60.0))
    inner = outer.beside(-6.0).spanning(5.0, 60.0)
    slot = rim_slot(outer, inner, 25.0, 0.2)
    assert slot.wall == pytest.approx(6.0, abs=0.05)
    assert slot.depth == pytest.approx(min(25.0, math.sqrt(8.0 * (radius - 3.0) * 0.2)), rel=0.35)


def test_a_deeper_strip_is_never_narrower():
    outer = profile((50.0, 0.0, 0.2), (70.0, 60.0))
    inner = outer.beside(-5.0).spanning(5.0, 60.0)
    widths = [strip(outer, inner, low)[0] for low in np.linspace(58.0, 20.0, 20)]
    assert (np.diff(widths) > -1e-3).all()


def test_a_rim_that_flares_at_once_takes_no_slot():
    outer, inner = profile((60.0, 0.0), (60.0, 50.0)), profile((50.0, 0.0), (50.0, 49.0), (58.0, 50.0))
    assert rim_slot(outer, inner, 25.0, 0.2) is None
