"""What the tests of places in tori and in vessels share."""

import numpy as np
import numpy.typing as npt
from hypothesis import strategies as st

from geometry.bodies.places import Places
from geometry.plane.edges import FloatArray

NEAR = 1e-9
EVERY_FIELD = ("ring", "segment", "u", "v", "y")
seeds = st.integers(0, 2**32 - 1)


def along(angle: npt.ArrayLike) -> FloatArray:
    """Level unit vectors (..., 3) at these angles."""
    return np.stack(np.broadcast_arrays(np.cos(angle), np.sin(angle), 0.0), axis=-1)


def agree(grid: Places, one_by_one: Places, shape: tuple[int, int]) -> None:
    for name in EVERY_FIELD:
        whole = np.broadcast_to(getattr(grid, name), shape)
        assert np.abs(whole - getattr(one_by_one, name)).max() < 1e-8, name
