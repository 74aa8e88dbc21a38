"""A smooth curve that comes nearer to the axis than its stations, and stations that steady it."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.curves.biarcs import biarcs
from geometry.curves.spline import through
from geometry.curves.undershoot import steadied, undershoots
from geometry.plane.profile import Profile


@st.composite
def stations(draw: st.DrawFn) -> list[tuple[float, float]]:
    steps = draw(st.lists(st.floats(15, 60), min_size=2, max_size=6))
    heights = [0.0, *np.cumsum(steps).tolist()]
    return [(draw(st.floats(20, 60)), height) for height in heights]


@given(stations())
def test_every_span_that_is_thinner_than_both_its_ends_is_found_as_deep_as_the_arcs_of_the_curve_have_it(
    points,
):
    outline = Profile(biarcs(through(np.array(points))))
    if outline.fold() is not None:
        return
    found = {one.span: one for one in undershoots(points)}
    for (r0, low), (r1, high) in pairwise(points):
        thin = outline.radii(low, high)[0]
        if min(r0, r1) - thin > 0.05:
            assert found[low, high].radius == pytest.approx(thin, abs=0.05)
        elif (low, high) in found:
            assert found[low, high].depth < 0.1


def test_a_stem_of_two_stations_is_steadied():
    few = [(35.0, 0.0), (10.0, 20.0), (10.0, 70.0), (30.0, 90.0), (35.0, 150.0)]
    assert max(one.depth for one in undershoots(few)) > 7
    more = steadied(few, 1.0)
    assert set(few) < set(more)
    assert max(one.depth for one in undershoots(more)) <= 1.0
