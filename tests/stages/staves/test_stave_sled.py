"""The sled of staves: what its two cuts leave, by corners and planes."""

from math import cos, dist, radians, sin, tan

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.blanks.staves import StaveBand
from geometry.hardware.sled_sizes import TAB
from jigs.stages.staves.layout import StaveSledLayout
from tests.stages.sled_shop import a_shop

OVER = 1.5


def sled_of(band: StaveBand, sheet: float = 12.0, right: bool = True) -> StaveSledLayout:
    board = (band.stock_width + 2 * OVER, band.stock_length)
    return StaveSledLayout(
        band.blade_tilt, abs(band.gauge_angle), band.stock_width, board, right,
        height=band.thickness, kerf=3.0, **a_shop(sheet, 0.1, 100.0),
    )  # fmt: skip


@st.composite
def bands(draw: st.DrawFn) -> StaveBand:
    lean, thick = radians(draw(st.floats(-30, 30))), draw(st.floats(12, 25))
    count, high, outer = draw(st.integers(5, 20)), draw(st.floats(40, 200)), draw(st.floats(60, 200))
    band = StaveBand(count, 10.0, 10.0 + high, lean, outer, thick)
    assume(min(band.inner_at(band.low), band.inner_at(band.high)) > 5)
    return band


@st.composite
def sleds(draw: st.DrawFn) -> StaveSledLayout:
    sled = sled_of(draw(bands()))
    assume(sled.fits)
    return sled


@given(bands())
def test_both_cuts_leave_a_stave_whose_joints_hold_the_vessels_axis(band: StaveBand) -> None:
    """In the stave s runs across, u to the wide end, w out of the outer face, z = u cos lean - w sin lean."""
    sled, lean, tilt = sled_of(band), abs(band.lean), band.blade_tilt
    a, b, c, d = sled.piece(2)
    turn, tall = sled.taper, band.thickness
    across, along = np.array([cos(turn), sin(turn)]), np.array([-sin(turn), cos(turn)])
    normal = np.array([cos(tilt) * across[0], cos(tilt) * along[0], -sin(tilt)])  # of the cut, in s, u, w
    axis = np.array([0.0, cos(lean), -sin(lean)])
    assert normal @ axis == pytest.approx(0, abs=1e-9)
    narrow = dist(a, b)
    radius = narrow / 2 / tan(band.mitre)
    on_axis = np.array([0.0, -radius * sin(lean), tall - radius * cos(lean)])
    on_edge = np.array([narrow / 2, 0.0, tall])
    assert normal @ (on_axis - on_edge) == pytest.approx(0, abs=1e-6)
    assert dist(a, d) == pytest.approx(dist(b, c))
    assert dist(c, d) == pytest.approx(band.stock_width)


@given(sleds())
def test_the_first_cut_leaves_the_edge_that_the_second_stop_takes(sled: StaveSledLayout) -> None:
    """The same angle at the wide end, and the same length, turned end for end."""
    (_, b1, c1, _), (a2, _, _, d2) = sled.piece(1), sled.piece(2)
    assert dist(b1, c1) == pytest.approx(dist(a2, d2))
    first, second = sled.stop_corner(1), sled.stop_corner(2)
    angles = []
    for toe, corner, end in (first, second):
        u, v = np.subtract(toe, corner), np.subtract(end, corner)
        angles.append(np.degrees(np.arccos(u @ v / np.linalg.norm(u) / np.linalg.norm(v))))
    assert angles == pytest.approx([90.0, 90.0 + np.degrees(sled.taper)])


@given(sleds())
def test_nothing_fixed_stands_near_the_blade_or_where_it_leans(sled: StaveSledLayout) -> None:
    for cut in (1, 2):
        toe, corner, _ = sled.stop_corner(cut)
        assert toe[0] <= -sled.clear_of_blade + 1e-9
        assert min(toe[1], corner[1]) > 10
        a, b, c, d = sled.piece(cut)
        assert b[0] == pytest.approx(sled.lean)
        assert c[0] == pytest.approx(sled.lean)
        assert max(a[0], d[0]) < sled.foot[0]
    assert sled.foot[1] <= -3
    beyond = sled.lean + sled.slant + sled.clear_of_blade
    assert all(low + TAB <= -sled.clear_of_blade or low >= beyond - 1e-9 for low in sled.tabs)
    left, right = sled.runner
    assert right < 0 if sled.slot_on_kept_side else left > 0


@given(sleds())
def test_the_hold_downs_finger_lies_on_the_wood_in_both_cuts(sled: StaveSledLayout) -> None:
    """Not over an end that the taper turns away from it."""
    (left, right), (near, far) = sled.foot, sled.pad
    for cut in (1, 2):
        wood = sled.piece(cut)
        for x in (left, right):
            for y in (near, far):
                for (x0, y0), (x1, y1) in zip(wood, [*wood[1:], wood[0]], strict=True):
                    assert (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) > 0
