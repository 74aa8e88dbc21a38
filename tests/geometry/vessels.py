"""Random vessels for the property tests."""

import numpy as np
from hypothesis import assume
from hypothesis import strategies as st

from geometry.bodies.section import Section, inner_from_wall
from geometry.curves.biarcs import biarcs
from geometry.curves.spline import through
from geometry.plane.profile import Profile


@st.composite
def outsides(draw: st.DrawFn) -> Profile:
    """A profile that only rises: lines and arcs between stations, or a smooth curve through them."""
    n = draw(st.integers(2, 5))
    radii = draw(st.lists(st.floats(25.0, 80.0), min_size=n, max_size=n))
    heights = np.cumsum([0.0, *draw(st.lists(st.floats(15.0, 50.0), min_size=n - 1, max_size=n - 1))])
    if draw(st.booleans()):
        found = Profile(biarcs(through(np.column_stack((radii, heights)))))
    else:
        bend = st.one_of(st.just(0.0), st.floats(0.02, 0.3), st.floats(-0.3, -0.02))
        bulges = draw(st.lists(bend, min_size=n, max_size=n))
        found = Profile(np.column_stack((radii, heights, bulges)))
    assume(found.fold() is None and found.radii(found.bottom, found.top)[0] > 12.0)
    return found


@st.composite
def sections(draw: st.DrawFn) -> Section:
    """A vessel with a wall of one thickness, some with a rounded floor, some with a hollow in the foot."""
    outer, wall = draw(outsides()), draw(st.floats(2.0, 8.0))
    floor, corner = draw(st.floats(4.0, 12.0)), draw(st.sampled_from((0.0, 2.0, 6.0)))
    try:
        inner = inner_from_wall(outer, wall, floor, corner)
    except ValueError:
        assume(False)
    hollow = draw(st.sampled_from((0.0, 2.5)))
    return Section(outer, inner, 0.5 * outer.start[0] if hollow else 0.0, hollow)
