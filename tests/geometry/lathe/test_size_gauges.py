from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.bodies.tube import tube_of
from geometry.lathe.size_gauges import PAST, groups, plate_sagitta, reach, shoulder_height, step_lengths

stages = st.builds(
    lambda tube, flat, offsets: [
        tube_of(tube, flat * tube).beyond(off) for off in sorted(offsets, reverse=True)
    ],
    st.floats(5, 200),
    st.sampled_from((1.0, 0.7, 0.9, 1.4)),
    st.lists(st.floats(0.1, 12), min_size=1, max_size=5, unique=True).filter(
        lambda offs: all(b - a > 0.05 for a, b in pairwise(sorted(offs)))
    ),
)


def rest(size, sizes):
    """Height of the gauge's tips when it has been pushed over a tube of this size, by brute force."""
    floors = [0.0, *np.cumsum(step_lengths(sizes))]
    lowest = -reach(sizes)
    x, y = np.array([size.at(angle) for angle in np.linspace(0, np.pi / 2, 2_001)]).T
    for half, floor in zip(sizes, floors, strict=True):
        if half.wide < size.wide:  # this step's shoulder comes down on the curve
            lowest = max(lowest, y[x >= half.wide].max() - floor)
    return lowest


@given(stages)
def test_a_tube_of_one_stage_lets_its_step_past_the_middle_and_stops_the_next(sizes):
    floors = [0.0, *np.cumsum(step_lengths(sizes))]
    for k, size in enumerate(sizes):
        tips = rest(size, sizes)
        assert tips + floors[k] <= -PAST + 1e-3 * size.wide
        if k + 1 < len(sizes):
            rests = size.height_at(sizes[k + 1].wide)
            assert tips + floors[k + 1] == pytest.approx(rests, abs=0.02 * size.wide)


@given(stages)
def test_a_tube_a_little_too_large_keeps_its_step_above_the_middle(sizes):
    floors = [0.0, *np.cumsum(step_lengths(sizes))]
    for k, size in enumerate(sizes):
        assert rest(size.beyond(0.01), sizes) + floors[k] > 0


@given(stages, st.floats(3, 120))
def test_groups_keep_every_stage_in_order_and_their_tips_off_the_board(sizes, room):
    shared = groups(sizes, room)
    assert [k for group in shared for k in group] == list(range(len(sizes)))
    assert all(reach([sizes[k] for k in group]) <= room for group in shared if len(group) > 1)
    for group, after in pairwise(shared):
        assert reach([sizes[k] for k in (*group, after[0])]) > room


def test_a_shoulder_rests_on_the_tubes_circle():
    assert shoulder_height(tube_of(5), tube_of(3)) == 4


@given(st.floats(5, 500), st.floats(0.5, 9))
def test_a_flat_plate_touches_the_hole_with_its_arrises(radius, thickness):
    reach_across = radius - plate_sagitta(radius, thickness)
    assert np.hypot(reach_across, thickness / 2) == pytest.approx(radius)


def test_a_plate_thicker_than_the_hole_is_refused():
    with pytest.raises(ValueError, match="does not enter"):
        plate_sagitta(5, 10)
