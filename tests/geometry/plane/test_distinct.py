"""Values each once, against numpy's own."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geometry.plane.distinct import distinct, numbered

VALUES = st.lists(st.integers(-3, 3).map(float) | st.floats(-1e3, 1e3)).map(np.array)


@given(VALUES)
def test_each_value_comes_once_and_rising(values):
    np.testing.assert_array_equal(distinct(values), np.unique(values))


@given(VALUES)
def test_each_place_is_known_by_its_value(values):
    corners = values + 1j * np.round(values)
    once, which = numbered(corners)
    np.testing.assert_array_equal(once, np.unique(corners))
    np.testing.assert_array_equal(once[which], corners)
