"""An outside that was turned too far: the profile as it is by its stations, and what the wall keeps by following it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicHermiteSpline

from geometry.bodies.section import inner_from_wall
from geometry.bodies.wall_measure import least_wall
from geometry.measuring.turned import Shift, moved
from geometry.plane.profile import Profile, profile
from tests.geometry.vessels import outsides

WITHIN = 0.005


def shifts(outer: Profile) -> st.SearchStrategy[Shift]:
    """At the foot, the rim and two places between, inward by up to 1 mm."""
    heights = tuple(np.linspace(outer.bottom, outer.top, 4).tolist())
    return st.lists(st.floats(-1.0, 0.0), min_size=4, max_size=4).map(lambda by: Shift(heights, tuple(by)))


@given(outsides(), st.data())
def test_every_height_is_moved_by_the_shift_there(outer: Profile, data: st.DataObject):
    """Against SciPy's cubic Hermite spline with level tangents, along the radius; arcs keep within square to it."""
    shift = data.draw(shifts(outer))
    found = moved(outer, shift, WITHIN)
    assert (found.bottom, found.top) == pytest.approx((outer.bottom, outer.top))
    wanted = CubicHermiteSpline(shift.heights, shift.shifts, np.zeros(4))
    for z in np.linspace(outer.bottom + 0.01, outer.top - 0.01, 60):
        steep = 1 / max(np.cos(outer.lean_at(float(z))), 0.05)  # along the radius it is more on a flat flank
        here = outer.radius_at(float(z)) + float(wanted(z))
        assert found.radius_at(float(z)) == pytest.approx(here, abs=2 * WITHIN * steep + 1e-3)


def test_a_profile_on_the_axis_still_ends_there():
    floor = profile((0, 10), (40, 10), (50, 60))
    found = moved(floor, Shift((10, 60), (-1, -1)), WITHIN)
    assert found.start == pytest.approx((0, 10))
    assert found.end == pytest.approx((49, 60))
    assert found.radius_at(10.001) == pytest.approx(39, abs=0.01)


@given(st.lists(st.floats(-0.9, 0.0), min_size=5, max_size=5), st.integers(0, 1000))
def test_an_inside_that_follows_keeps_the_wall(off: list[float], seed: int):
    """Injected: a beaker turned too far at five stations. Read with noise; hollowed by the gauge as planned, and by
    the one that follows. Without readings the wall lacks what was turned off; with them no more than they err by."""
    outer, wall, floor = profile((40, 0), (60, 120)), 6.0, 9.0
    heights = np.linspace(0, 120, 5)
    true = moved(outer, Shift(tuple(heights.tolist()), tuple(off)), WITHIN)
    read = np.array(off) + np.clip(np.random.default_rng(seed).normal(0, 0.0125, 5), -0.025, 0.025)
    seen = moved(outer, Shift(tuple(heights.tolist()), tuple(read.tolist())), WITHIN)
    planned, following = (inner_from_wall(one, wall, floor, 5.0) for one in (outer, seen))
    without, with_it = (wall - least_wall(true, inner)[0] for inner in (planned, following))
    assert with_it <= 0.025 + 0.03
    assert without >= -min(off[1:-1]) * 0.9 - 0.05
