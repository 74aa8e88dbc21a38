"""What small errors of sawing come to, against the pieces put together."""

import math
from dataclasses import replace

import numpy as np
import pytest

from geometry.blanks.out_of_true import halves_nearer, moved_out, open_joint, skewed_step
from geometry.bodies.torus import Blank

BLANK = Blank(18, 10, 30.0, 10.0, 95.0)


def test_a_joint_stays_open_as_segments_laid_end_to_end_do():
    """Against segments laid one against the next round the axis, each end half a degree too square."""
    segments, apothem, error = 12, 40.0, math.radians(0.5)
    each = 2 * (math.pi / segments - error)  # by which a segment turns the next
    corner = apothem * (1 - math.tan(math.pi / segments) * 1j) * np.exp(1j * math.pi / segments)
    first, last = corner, corner * np.exp(1j * each * segments)
    assert abs(last - first) == pytest.approx(open_joint(abs(corner), 2 * segments, error), rel=0.01)


def test_skewed_rings_step_as_prisms_cut_by_two_planes_through_the_axis_do():
    """Both planes are turned alike; where they cut the outer flat is nearer to the axis on one than on the other."""
    error, w = math.radians(0.4), BLANK.half_wedge
    flat = BLANK.centre + BLANK.half_width
    near, far = (flat / math.cos(error + sign * w) for sign in (-1, 1))
    assert far - near == pytest.approx(skewed_step(BLANK, error), rel=0.02)


def test_a_thicker_ring_lies_farther_out():
    out = moved_out(BLANK, 0.6)
    assert replace(BLANK, centre=BLANK.centre + out).thick_edge == pytest.approx(BLANK.thick_edge + 0.6)


@pytest.mark.parametrize(("short", "nearer"), [(0.0, 0.0), (0.4, 0.0), (0.5, 0.0), (0.8, 0.3), (2.0, 1.5)])
def test_halves_come_nearer_only_by_what_was_not_left_for_sanding(short, nearer):
    assert halves_nearer(BLANK, short, 0.5) == pytest.approx(nearer)
