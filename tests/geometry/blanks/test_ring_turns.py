"""Rings turned on one another by any angle, held against polygons sampled all round."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.glue_width import glued_share, open_face
from geometry.blanks.ring_stack import Ring
from geometry.blanks.ring_turns import stands_over, width_turned, wrapped
from geometry.bodies.section import Section
from geometry.plane.edges import FloatArray
from geometry.plane.profile import profile

CUP = Section(profile((30, 0), (30, 50)), profile((0, 8), (25, 8), (25, 50)))
RAYS = 200000

counts = st.sampled_from((3, 4, 5, 6, 8, 12, 16, 24))
radii = st.floats(20.0, 100.0)
shares = st.floats(0.2, 0.97)
turns = st.floats(-7.0, 7.0)


def along(apothem: float, n: int, turned: float, rays: FloatArray) -> FloatArray:
    """From the axis to a regular polygon: of all its sides, the first that a ray meets."""
    normals = turned + 2 * np.pi / n * np.arange(n)
    facing = np.cos(rays[:, None] - normals).max(axis=1)
    return np.asarray(apothem / facing)


@given(radii, radii, shares, shares, counts, turns)
def test_the_least_width_is_that_of_all_rays(
    a: float, b: float, core_a: float, core_b: float, n: int, turn: float
) -> None:
    lower, upper = Ring(1, 0, 10, n, a, core_a * a), Ring(2, 10, 10, n, b, core_b * b)
    rays = np.linspace(0.0, 2 * np.pi / n, RAYS // n, endpoint=False)
    outer = np.minimum(along(a, n, 0.0, rays), along(b, n, turn, rays))
    inner = np.maximum(along(lower.core, n, 0.0, rays), along(upper.core, n, turn, rays))
    least = float((outer - inner).min())
    found = width_turned(lower, upper, turn)
    assert least - 0.01 <= found <= least + 1e-9


def test_the_least_width_may_lie_between_corners() -> None:
    """A large square over a small opening, hardly turned: neither at a corner nor at the middle of a flat."""
    lower, upper = Ring(1, 0, 10, 4, 50.0, 10.0), Ring(2, 10, 10, 4, 60.0, 15.0)
    turn = 0.3
    rays = np.linspace(0.0, np.pi / 2, 400001)
    width = along(50.0, 4, 0.0, rays) - along(15.0, 4, turn, rays)
    k = int(width.argmin())
    assert min(abs(rays[k] - at) for at in (0.0, np.pi / 4, np.pi / 4 + turn, np.pi / 2)) > 0.01
    assert width_turned(lower, upper, turn) == pytest.approx(width[k], abs=1e-6)


@given(counts, turns)
def test_the_tick_stands_over_the_nearest_segment(n: int, turn: float) -> None:
    number, past = stands_over(n, turn)
    assert 1 <= number <= n
    assert abs(past) <= math.pi / n + 1e-6
    middle = 2 * math.pi / n * (number - 1)
    assert math.cos(middle + past - turn) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("share", "over", "past"), [(0.5, 1, 0.5), (1, 2, 0), (-0.5, 12, 0.5), (0.75, 2, -0.25)]
)
def test_the_tick_over_a_joint_counts_from_the_segment_before_it(
    share: float, over: int, past: float
) -> None:
    pitch = 2 * math.pi / 12
    assert stands_over(12, share * pitch) == (over, pytest.approx(past * pitch))


@given(turns)
def test_a_wrapped_turn_is_the_same_direction(turn: float) -> None:
    assert -math.pi < wrapped(turn) <= math.pi
    assert math.cos(wrapped(turn) - turn) == pytest.approx(1.0)


@given(st.integers(6, 24), st.floats(0.2, 2.0), st.floats(0.2, 2.0), st.floats(0.0, 1.0))
def test_open_rings_bridge_by_the_shorter_of_two_faces(n: int, g: float, h: float, share: float) -> None:
    lower, upper = Ring(1, 10, 10, n, 33, 20, g), Ring(2, 20, 10, n, 33, 20, h)
    mean, pitch = 27.5, 2 * math.pi / n
    angles = (np.arange(RAYS) + 0.5) * (pitch / RAYS)  # from one joint of the lower ring to its next

    def apart(turn: float) -> FloatArray:
        """From the nearest joint."""
        return np.asarray(pitch / 2 - np.abs((angles - turn) % pitch - pitch / 2)) * mean

    glued = (apart(0.0) >= g / 2) & (apart(share * pitch) >= h / 2)
    first, rest = (
        float((glued & side).mean()) * pitch * mean
        for side in (angles < share * pitch, angles >= share * pitch)
    )
    if min(first, rest) < 1e-3:
        if min(share, 1 - share) * pitch * mean < (g + h) / 2 - 1e-3:
            with pytest.raises(ValueError, match="wider than a face"):
                open_face(CUP, lower, upper, share * pitch)
        return
    assert open_face(CUP, lower, upper, share * pitch).length == pytest.approx(min(first, rest), abs=0.01)
    assert glued_share(CUP, lower, upper, share * pitch) == pytest.approx(glued.mean(), abs=1e-3)
