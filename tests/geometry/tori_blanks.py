"""Random blanks for the property tests."""

import math

from hypothesis import strategies as st

from geometry.bodies.torus import Blank

SEGMENTS = (6, 8, 10, 12, 14, 16)

segments = st.sampled_from(SEGMENTS)
wedge_rings = st.integers(3, 30).map(lambda half: 2 * half)


@st.composite
def blanks(draw: st.DrawFn) -> Blank:
    """Any ring that does not reach the axis; whether it holds a torus worth having is not asked."""
    n, apothem = draw(segments), draw(st.floats(10.0, 60.0))
    core = draw(st.floats(0.1, 0.8)) * apothem
    centre = draw(st.floats(1.02, 6.0)) * apothem / math.cos(math.pi / n)
    return Blank(draw(wedge_rings), n, apothem, core, centre)
