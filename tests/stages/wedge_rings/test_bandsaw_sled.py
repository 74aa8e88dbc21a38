"""The bandsaw's sled, its strip slid along its rail."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.blanks.sawing import wedge_ring_cut
from geometry.bodies.torus import Blank, outer_flat
from geometry.hardware.fittings import IN_INCHES, METRIC
from geometry.hardware.sled_sizes import EdgeGuide
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout

drifts = st.floats(-8.0, 8.0).map(math.radians)
guides = st.builds(EdgeGuide, drifts, st.floats(50.0, 400.0), st.floats(60.0, 400.0))


@st.composite
def layouts(draw: st.DrawFn) -> BandsawLayout:
    n, rings, apothem = (
        draw(st.sampled_from((6, 8, 10, 12))),
        2 * draw(st.integers(3, 20)),
        draw(st.floats(20.0, 60.0)),
    )
    inner = draw(st.floats(8.0, 80.0)) / (2 * math.tan(math.pi / rings))
    blank = Blank(rings, n, apothem, 0.2 * apothem, inner + outer_flat(apothem, n))
    layout = BandsawLayout(
        fittings=draw(st.sampled_from((METRIC, IN_INCHES))),
        cut=wedge_ring_cut(blank, 3.0, 0.1),
        apothem=apothem,
        core_apothem=blank.core_apothem,
        mitre=blank.mitre,
        sheet=draw(st.floats(9.0, 18.5)),
        play=0.2,
        kerf=1.2,
        trim=5.0,
        clear_of_blade=12.0,
        hands_clear=150.0,
        guide=draw(guides),
    )
    assume(layout.jaw_reach >= blank.half_width and layout.room(layout.fence_start) >= 0)
    return layout


def to_table(guide: EdgeGuide, places: np.ndarray, teeth: float) -> np.ndarray:
    """Places on the sled as they lie on the table while the teeth are at y = `teeth` of the sled.

    On the table the teeth are the origin, its left edge is x = -table_left, its front edge y = -table_front.
    The cut runs along the sled's y, which leans off the table's edge by the drift, to the left.
    """
    c, s = math.cos(guide.drift), math.sin(guide.drift)
    return (places - (0.0, teeth)) @ np.array(((c, s), (-s, c)))


def rail_edge(guide: EdgeGuide) -> np.ndarray:
    """The rail's outer edge on the table, from front to far end."""
    near, far = guide.rail_widths
    left = -guide.table_left
    return np.array(((left - near, -guide.table_front), (left - far, guide.rail_length - guide.table_front)))


@given(guides, st.floats(-300.0, 300.0))
def test_the_strips_edge_stays_on_the_rail_through_the_whole_feed(guide: EdgeGuide, teeth: float) -> None:
    edge = rail_edge(guide)
    along = (edge[1] - edge[0]) / np.hypot(*(edge[1] - edge[0]))
    strip = to_table(guide, np.array(((guide.strip, teeth - 100), (guide.strip, teeth + 100))), teeth)
    off = (strip - edge[0]) @ (-along[1], along[0])
    assert off[0] == pytest.approx(off[1], abs=1e-9)
    assert off == pytest.approx(0, abs=1e-9)


@given(guides)
def test_the_rail_is_never_narrower_than_its_narrow_end(guide: EdgeGuide) -> None:
    assert min(guide.rail_widths) == pytest.approx(40.0)
    turn = math.atan2(guide.rail_widths[1] - guide.rail_widths[0], guide.rail_length)
    assert turn == pytest.approx(guide.drift, abs=1e-9)


@given(layouts())
def test_the_cut_ends_behind_the_ring_and_in_front_of_the_bridge(layout: BandsawLayout) -> None:
    ring_end = layout.plan(layout.cut.stop, layout.cut.gap(layout.cut.stop))[1]
    assert layout.feed_end < ring_end
    assert layout.operator_edge < layout.bridge[0] < layout.bridge[1] < layout.slot_end < layout.feed_end
    assert layout.operator_edge <= min(y for _, y in layout.batten) - 40


@given(layouts())
def test_the_bridge_stands_clear_of_fence_and_cheeks_on_both_halves(layout: BandsawLayout) -> None:
    ends = [layout.plan(layout.fence_end, u + h)[1] for u in layout.cheeks for h in (0.0, layout.sheet)]
    assert layout.bridge[1] < min(ends)
    left, right = layout.bridge_tabs
    assert left + 30 < 0 < layout.slot_sides[1] < right
    assert layout.bridge_sides[1] <= layout.right_edge


@given(layouts())
def test_the_batten_meets_the_tables_front_when_the_teeth_have_cut_the_ring(layout: BandsawLayout) -> None:
    batten = to_table(layout.guide, np.array(layout.batten), layout.feed_end)
    assert batten[:, 1] == pytest.approx(-layout.guide.table_front)


@given(layouts())
def test_the_base_covers_its_strip_and_keeps_hands_off_the_blade(layout: BandsawLayout) -> None:
    assert layout.left_edge <= layout.guide.strip - 30
    assert layout.handle <= -layout.hands_clear
    assert layout.saw_height > layout.fence_height + layout.sheet
