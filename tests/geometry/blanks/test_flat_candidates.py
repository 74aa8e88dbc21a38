"""Many stacks at once, held against the rings worked out one by one."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.flat_candidates import flat_candidates
from geometry.blanks.glue_width import turned_width
from geometry.blanks.ring_stack import ring
from geometry.bodies.section import Section
from tests.geometry.vessels import sections

ALLOWANCE = 2.0


def places(body: Section, height: float) -> list[tuple[float, float]]:
    bottoms = np.arange(-ALLOWANCE, body.height, height).tolist()
    return [(low, low + height) for low in bottoms]


@given(
    sections(),
    st.lists(st.floats(10.0, 30.0), min_size=1, max_size=3),
    st.lists(st.integers(4, 40), min_size=1, max_size=3),
)
def test_every_ring_of_every_stack_is_the_one_that_is_planned_alone(
    body: Section, heights: list[float], counts: list[int]
):
    """Sizes to what a flank grows over one step; glue and wood follow from them."""
    many = flat_candidates(body, ALLOWANCE, [places(body, height) for height in heights], counts, 0.0)
    assert len(many) == len(heights) * len(counts)
    for k in range(len(many)):
        spans, count = places(body, heights[many.choice[k]]), int(many.segments[k])
        own = [ring(body, j, low, high - low, count, ALLOWANCE) for j, (low, high) in enumerate(spans, 1)]
        assert many.rings[k] == len(own)
        assert many.outer[k][: len(own)] == pytest.approx([one.outer for one in own], abs=0.12)
        assert many.pieces[k] == count * len(own)
        hollow = [one for one in own if one.core > 0]
        assert many.core[k][len(own) - len(hollow) : len(own)] == pytest.approx(
            [one.core for one in hollow], abs=0.12
        )
        assert many.radius[k] == pytest.approx(max(one.radius for one in own), abs=0.2)
        assert many.smallest(0.0)[k] == pytest.approx(min(one.outer_edge for one in own), abs=0.3)
        wide = min((turned_width(a, b) for a, b in pairwise(own)), default=math.inf)
        assert many.glue[k] == pytest.approx(wide, abs=0.4) or many.glue[k] == wide
        volume = sum((one.volume) * (one.height + 0.3) / one.height for one in own)
        assert many.sawn(0.3, 0.0)[k] == pytest.approx(volume, rel=0.02)


def test_a_narrow_base_is_one_piece():
    body = Section(*_cylinder())
    many = flat_candidates(body, ALLOWANCE, [places(body, 20)], [12], 75.0)
    assert many.disc[0][0]
    assert not many.disc[0][1:].any()
    assert many.pieces[0] == 12 * (many.rings[0] - 1)


def _cylinder():
    from geometry.bodies.section import inner_from_wall
    from geometry.plane.profile import profile

    outer = profile((30, 0), (30, 90))
    return outer, inner_from_wall(outer, 5, 8, 2)
