"""How wide a faceplate on a retainer's rim may be before the work that is reversed on it hits it."""

from math import inf

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.tube import tube_of
from geometry.lathe.turning import Retainer


@given(tube=st.floats(8.0, 80.0), hole=st.floats(20.0, 300.0))
def test_no_wood_past_the_rim_lies_nearer_to_the_axis_than_the_faceplates_edge(
    tube: float, hole: float
) -> None:
    plug = Retainer(hole + tube, tube_of(tube), 0.0, 0.87, 1.5, 3.0)
    angles = np.linspace(0, 2 * np.pi, 20001)
    radius, height = plug.major + tube * np.cos(angles), tube * np.sin(angles)
    past = radius[height > plug.top]
    if plug.clears == inf:
        assert past.size == 0
    else:
        nearest = past.min() - plug.clears / 2
        assert plug.board_clearance - 1e-9 <= nearest <= plug.board_clearance + 0.1 * tube
