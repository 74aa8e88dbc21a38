"""Strips of scrap for the trials: what is tried with them, how long they are, how many."""

from math import ceil, cos, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.records import replace
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.solve.lots import scrap_strips
from tests.jigs.wood.whole_jobs import plan_of, torus
from tests.work.reading import work_for


def test_a_torus_is_tried_in_scrap_as_a_ring_and_as_a_quarter():
    plan = torus()
    ring, quarter = plan.wood.scraps
    assert (ring.of, ring.count, ring.segments) == ("ring", 1, 8)
    assert (quarter.of, quarter.count) == ("quarter", plan.check.rings)
    for scrap in (ring, quarter):
        assert scrap.strips == 1
        pieces = scrap.count * scrap.segments
        kerf = plan.segment.kerf / cos(pi / 8)
        mean = (plan.segment.outer_edge + plan.segment.inner_edge) / 2
        assert scrap.strip > pieces * mean + (pieces + 1) * kerf
        assert (scrap.thickness, scrap.width) == (plan.segment.depth, plan.segment.length)


@pytest.mark.parametrize("name", ["bowl", "bottle", "staved", "tumbler"])
def test_a_vessel_is_tried_in_scrap_once_for_each_count_of_segments(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    rings = [scrap for scrap in plan.wood.scraps if scrap.of == "ring"]
    counts = {layer.ring.segments for layer in plan.stack.layers if layer.cut}
    assert sorted(scrap.segments for scrap in rings) == sorted(counts)
    for scrap in rings:
        cuts = [
            layer.cut for layer in plan.stack.layers if layer.cut and layer.ring.segments == scrap.segments
        ]
        assert scrap.width == min(cuts, key=lambda cut: cut.outer_edge).depth
        own = [layer for layer in plan.stack.layers if layer.number == scrap.rings[0]]
        assert [layer.cut.depth for layer in own] == [scrap.width]
    assert [scrap.of for scrap in plan.wood.scraps].count("staves") == (plan.stack.staves is not None)


@pytest.mark.parametrize("name", ["garland", "bowl", "bottle", "staved", "tumbler"])
def test_no_strip_of_scrap_is_too_short_to_be_planed_and_ripped(name):
    assert all(scrap.strip >= 350.0 for scrap in plan_of(name).wood.scraps)


def test_trials_of_many_segments_share_several_strips_of_scrap_none_longer_than_a_board():
    """One strip for all of them would be as long as no board that the shop can get."""
    more = "[stock]\nbought_length = {long}\n"
    for long, strips in (("600", 2), ("1500", 1)):
        plan = torus(more=more.format(long=long))
        quarter = plan.wood.scraps[1]
        (lot,) = plan.wood.lots
        assert quarter.strips == strips
        assert 350 <= quarter.strip <= float(long) - 40
        assert quarter.strips * lot.pieces_in(quarter.strip) >= quarter.count * quarter.segments
        (told,) = (one for one in work_for(plan).operations if one.id == "boards.scrap")
        assert told.pieces == (1 + strips)
        sizes = {size.id: size.value for size in told.settings}
        assert (sizes["scrap-2"], sizes["scrap-2.length"]) == (strips, quarter.strip)


@given(st.integers(1, 80), st.floats(20, 90), st.floats(0, 60), st.floats(400, 3000))
def test_strips_of_scrap_are_as_few_as_boards_that_can_be_bought_give(pieces, each_piece, held, bought):
    stock = replace(plan_of("garland").job.workshop.stock, bought_length=bought)
    workshop = replace(plan_of("garland").job.workshop, stock=stock)
    longest = bought - 2 * stock.end_trim

    def length(count):
        return count * each_piece + held

    strips, strip = scrap_strips(replace(plan_of("garland").job, workshop=workshop), pieces, length)
    assert strip == max(350, length(ceil(pieces / strips)))
    assert length(ceil(pieces / strips)) <= longest
    assert strips == 1 or length(ceil(pieces / (strips - 1))) > longest
