"""Boards too small, lengths they are crosscut to, what is left of them, and random stocks."""

import random
import re
from collections import Counter
from dataclasses import replace

import pytest

from jigs.asked.job_wood import Board
from jigs.stages.boards.check import stock_findings
from jigs.stages.boards.plan import Shortage
from jigs.stages.boards.solve.boards import wood_classes
from jigs.words.lengths import parse_length
from tests.jigs.wood.garland_boards import LOT, LOTS, PLAN, board, planned
from tests.jigs.wood.wood_jobs import ALL, lots_of, plan_of, stocked, with_stock


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("key", ["bought_width", "bought_length"])
def test_a_board_too_small_is_refused_with_a_size_that_works(key, unit):
    small = {"bought_width": 40.0, "bought_length": 300.0}[key]
    lots = (replace(LOT, longer=400.0, shorter=400.0, mitre=0.0),) if key == "bought_length" else LOTS
    job = replace(with_stock(PLAN.job, **{key: small}), unit=unit)
    classes, (refusal,) = stocked(job, lots)
    assert not classes
    assert (refusal.severity, refusal.key) == ("refused", f"stock.{key}")
    number = re.search(rf"set stock.{key} to at least (.*?),", refusal.remedy).group(1)
    assert not stocked(with_stock(job, **{key: parse_length(number, unit)}), lots)[1]


def test_a_size_that_no_board_may_have_is_refused_without_a_number():
    shortage = Shortage("base", (1,), "maple", 20.0, "length", 1e5)
    (refusal,) = stock_findings(PLAN.job, LOTS, (), (shortage,))
    assert refusal.severity == "refused"
    assert "at least" not in refusal.remedy


def test_pieces_too_large_for_bought_boards_are_planned_from_larger_ones_at_hand():
    (of,), findings = planned(board(count=3), bought_width=40.0)
    assert not any(taken.bought for taken in of.taken)
    assert not findings


def test_if_those_are_too_few_it_is_refused():
    classes, (refusal,) = planned(board(width=80, length=500), bought_width=40.0)
    assert not classes
    assert refusal.code == "board-too-narrow"


def test_few_pieces_of_many_sizes_are_cut_from_shorter_lengths_and_the_rest_stays_whole():
    plan = plan_of("sorrel")
    classes, _ = stocked(plan.job, lots_of(plan))
    for of in classes:
        (taken,) = of.taken
        assert taken.count == 1
        assert any(o.width == taken.width and o.length == taken.rest and o.kept for o in of.offcuts)


def test_offcuts_are_kept_where_they_are_long_and_wide_enough():
    kept = set()
    for name in ("sorrel", "tumbler", "garland"):
        plan = plan_of(name)
        least = plan.job.workshop.stock.least_offcut
        offcuts = [o for of in stocked(plan.job, lots_of(plan))[0] for o in of.offcuts]
        assert all(o.kept == (o.length >= least and o.width >= 20) for o in offcuts)
        kept |= {o.kept for o in offcuts}
    assert kept == {True, False}


def test_a_base_that_is_wanted_once_is_sawn_once_and_the_length_stays_whole():
    plan = plan_of("cup")
    bases = [lot for lot in lots_of(plan) if lot.name == "base"]
    assert bases
    for base in bases:
        strips = [s for of in plan.wood.classes for b in of.boards for s in b.strips if s.lot == base.number]
        assert base.wanted == sum(strip.strips * strip.pieces for strip in strips) == 1
        assert all(strip.left == pytest.approx(base.left_of(strip.length, strip.pieces)) for strip in strips)


def test_the_last_strip_is_cut_no_further_than_wanted_though_the_rest_is_too_short_to_keep():
    (of,), _ = planned(bought_width=70.0, bought_length=820.0)
    *full, last = [strip for sawn in of.boards for strip in [*sawn.strips] * sawn.count]
    assert sum(strip.pieces for strip in (*full, last)) == LOT.wanted
    assert {strip.pieces for strip in full} == {LOT.pieces_in(last.length)}
    assert LOT.held < last.left < 300


def test_ring_heights_chosen_from_boards_are_not_planed():
    plan = plan_of("tumbler")
    for of in stocked(plan.job, lots_of(plan))[0]:
        for taken in of.taken:
            assert taken.bought or taken.thickness == pytest.approx(of.thickness)


def test_the_same_job_has_the_same_plan():
    plan = plan_of("tumbler")
    assert wood_classes(plan.job, lots_of(plan)) == wood_classes(plan.job, lots_of(plan))


def boards_for(rng, lots, count):
    """Of every wood and thickness, wide enough to be ripped to any of its strips; sizes in whole mm."""
    widest = max(lot.width for lot in lots) + 7
    return tuple(
        Board(species, thickness, width, float(rng.randint(700, 2400)), rng.randint(1, count))
        for species, thickness in dict.fromkeys((lot.species, lot.thickness) for lot in lots)
        for width in (float(rng.randint(int(widest), int(widest) + 120)), float(int(widest) + 150))
    )


def randomly_stocked(seed):
    """All bought, all at hand, or some of both, by turns."""
    rng = random.Random(seed)
    plan = plan_of(rng.choice(ALL))
    lots = lots_of(plan)
    hand = () if seed % 3 == 0 else boards_for(rng, lots, 60 if seed % 3 == 1 else 1)
    widest = max(lot.width for lot in lots) + 7
    bought = {"bought_width": widest + rng.randint(0, 150), "bought_length": rng.uniform(900, 2600)}
    return with_stock(plan.job, boards=hand, **bought), lots


@pytest.mark.parametrize("seed", range(50))
def test_random_stocks_give_all_pieces_and_buy_at_most_one_board_over_the_bound(seed):
    job, lots = randomly_stocked(seed)
    classes, shortages = wood_classes(job, lots)
    assert not shortages
    kerf, listed, cut = job.workshop.saw.kerf, Counter(), Counter()
    for one in job.workshop.stock.boards:
        listed[one.species, one.thickness, one.width, one.length] += one.count
    for of in classes:
        assert of.bound <= of.area * (1 + 1e-9)
        bought = sum(taken.count for taken in of.taken if taken.bought)
        assert of.least <= bought <= of.least + 1
        for sawn in of.boards:
            across = sum((strip.width + kerf) * strip.strips for strip in sawn.strips) - kerf
            assert across <= sawn.width - job.workshop.stock.edge_trim + 1e-5
            for strip in sawn.strips:
                cut[strip.lot] += strip.strips * strip.pieces * sawn.count
        for taken in of.taken:
            if not taken.bought:
                listed[of.species, taken.thickness, taken.width, taken.length] -= taken.count
    assert min(listed.values(), default=0) >= 0
    assert all(cut[lot.number] >= lot.wanted for lot in lots)
