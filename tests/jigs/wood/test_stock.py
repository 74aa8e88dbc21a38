"""Boards at hand and boards to buy: what is taken, what is said, what is refused."""

import random
import re
from collections import Counter
from dataclasses import replace
from math import inf

import pytest

from jigs.checks.wood.stock import stock_findings
from jigs.job_wood import Board
from jigs.jobfile import parse
from jigs.lengths import parse_length
from jigs.plan.wood.stock import Shortage
from jigs.solve import solve
from jigs.solving.wood.at_hand import in_stock
from jigs.solving.wood.boards import wood_classes
from jigs.solving.wood.bought import widened
from jigs.solving.wood.kinds import bought_kind, hand_kinds, rough_thickness
from tests.jigs.vessel.jobs import text as vessel_text
from tests.jigs.wood.wood_jobs import (
    ALL,
    lots_of,
    one_source,
    plan_of,
    stocked,
    torus_text,
    with_boards,
    with_stock,
)

PLAN = plan_of("garland")
LOTS = lots_of(PLAN)
(LOT,) = LOTS
THICK = LOT.thickness


def board(width=150.0, length=2000.0, count=1, thickness=THICK, species="maple"):
    return Board(species, thickness, width, length, count)


def planned(*boards, lots=LOTS, **stock):
    job = with_stock(PLAN.job, boards=boards, **stock)
    return stocked(job, lots)


def codes(findings):
    return [finding.code for finding in findings]


@pytest.mark.parametrize("name", ALL)
def test_every_job_gets_all_its_pieces_and_no_plan_is_under_its_bound(name):
    plan = plan_of(name)
    lots = lots_of(plan)
    classes, findings = stocked(plan.job, lots)
    cut = {lot.number: 0 for lot in lots}
    for of in classes:
        assert 0 < of.bound <= of.area * (1 + 1e-9)
        assert not one_source(of) or of.area <= of.first_fit + 1e-6
        for sawn in of.boards:
            for strip in sawn.strips:
                cut[strip.lot] += sawn.count * strip.strips * strip.pieces
    assert cut == {lot.number: lot.wanted for lot in lots}
    assert not [finding for finding in findings if finding.severity == "refused"]


@pytest.mark.parametrize("name", ALL)
def test_no_strip_is_left_shorter_than_the_hold_down_needs(name):
    plan = plan_of(name)
    lots = {lot.number: lot for lot in lots_of(plan)}
    for of in stocked(plan.job, tuple(lots.values()))[0]:
        for strip in (strip for sawn in of.boards for strip in sawn.strips):
            assert strip.left >= lots[strip.lot].held - 1e-6


def test_boards_at_hand_that_are_enough_are_taken_and_none_is_bought():
    (of,), findings = planned(board(count=2))
    assert [taken.bought for taken in of.taken] == [False]
    assert not any(sawn.bought for sawn in of.boards)
    assert not findings


def test_boards_at_hand_are_taken_where_that_saves_a_bought_one_and_the_rest_is_said():
    """Bought boards give one strip each, and two strips are wanted."""
    (of,), findings = planned(board(width=75, length=1900), bought_width=70.0)
    assert sorted((taken.bought, taken.count) for taken in of.taken) == [(False, 1), (True, 1)]
    (note,) = findings
    assert (note.code, note.severity) == ("not-enough-boards", "note")
    assert "buy 1 of" in note.remedy
    assert sum(taken.count for taken in planned(bought_width=70.0)[0][0].taken) == 2
    (of,), findings = planned(board(width=75, length=1900, count=2), bought_width=70.0)
    assert not any(taken.bought for taken in of.taken)
    assert not findings


def test_where_one_must_be_bought_anyhow_no_second_one_is():
    (of,), findings = planned(board(width=70, length=600))
    assert [taken.count for taken in of.taken if taken.bought] == [1]
    assert [finding.code for finding in findings] == ["not-enough-boards"]


@pytest.mark.parametrize(
    ("listed", "bought"),
    [({924.0: 1}, (151.0, 2330.0)), ({565.0: 3}, (196.0, 2491.0)), ({1403.0: 2}, (149.0, 600.0))],
)
def test_boards_at_hand_that_suit_and_stay_whole_are_counted_in_the_note(listed, bought):
    plan = plan_of("sorrel")
    maple = tuple(lot for lot in lots_of(plan) if lot.species == "maple")
    thick = maple[0].thickness
    boards = tuple(Board("maple", thick, 30.0, length, count) for length, count in listed.items())
    job = with_stock(plan.job, boards=boards, bought_width=bought[0], bought_length=bought[1])
    (of,), (note,) = stocked(job, maple)
    used = Counter({taken.length: taken.count for taken in of.taken if not taken.bought})
    _, told = note.message.split("; left whole, for the others and what is bought give all: ")
    ((count, length),) = re.findall(r"^(\d+) of 21.3 mm x 30.0 mm x (\S+) mm$", told)
    assert used + Counter({float(length): int(count)}) == listed


def test_where_all_boards_at_hand_are_sawn_none_is_said_to_stay_whole():
    (of,), (note,) = planned(board(width=70, length=600))
    assert any(not taken.bought for taken in of.taken)
    assert note.message.endswith("at hand are not enough")


def test_boards_at_hand_that_give_all_but_some_spares_are_said_to_and_it_is_so():
    lengths = [1300.0, 1440.0, 1480.0, 1560.0]
    heard = set()
    for length in lengths:
        (of,), (note,) = planned(board(width=70, length=length, count=2), bought_width=70.0)
        told = re.search(r"they give all (\d+) of the work, (\w+) of the (\d+) spares", note.message)
        heard.add(of.hand_spares)
        assert (of.hand_spares is None) == (told is None)
        for spares in range(LOT.spares + 1):
            fewer = (replace(LOT, spares=spares),)
            (alone,), _ = planned(board(width=70, length=length, count=2), lots=fewer, bought_width=70.0)
            enough = not any(taken.bought for taken in alone.taken)
            assert enough == (of.hand_spares is not None and spares <= of.hand_spares)
        if told:
            assert told.groups() == (str(LOT.count), str(of.hand_spares or "none"), str(LOT.spares))
            assert f"make do with {of.hand_spares or 'none'} of the spares" in note.remedy
    assert None in heard
    assert len(heard) > 2


def test_where_nothing_is_listed_buying_is_no_note():
    classes, findings = planned()
    assert classes[0].taken[0].bought
    assert not findings


def test_bought_boards_are_thicker_by_what_planing_takes_rounded_up():
    (of,), _ = planned(planing=4.0)
    assert THICK + 4 <= of.taken[0].thickness < THICK + 4.5


def test_a_board_as_wide_as_the_strip_is_taken_as_it_is():
    ready = board(width=LOT.width + 0.4, length=2500, count=3)
    (of,), _ = planned(ready)
    assert all(sawn.ready for sawn in of.boards)
    assert {strip.width for sawn in of.boards for strip in sawn.strips} == {LOT.width + 0.4}
    assert of.volumes.kerf < planned(board(count=2))[0][0].volumes.kerf


def test_a_board_narrower_than_the_strip_is_not_taken():
    (of,), _ = planned(board(width=LOT.width - 0.2, count=9))
    assert all(taken.bought for taken in of.taken)


@pytest.mark.parametrize("unknown", [{"width": None}, {"length": None}, {"width": None, "length": None}])
def test_boards_of_unknown_size_are_left_out_with_a_warning_until_it_is_given(unknown):
    (of,), findings = planned(board(**unknown, count=4))
    assert all(taken.bought for taken in of.taken)
    warning = next(finding for finding in findings if finding.code == "board-without-size")
    assert (warning.severity, warning.key) == ("warning", "stock.boards")
    assert all(name in warning.remedy for name in unknown)
    assert "board-without-size" not in codes(planned(board(count=4))[1])


@pytest.mark.parametrize(
    ("over", "taken"), [(0.0, True), (2.0, True), (5.9, True), (6.1, False), (-0.2, False)]
)
def test_a_board_at_hand_may_be_thicker_than_a_bought_one_by_3_mm(over, taken):
    (of,), findings = planned(board(thickness=THICK + over, count=3))
    assert any(not one.bought for one in of.taken) is taken
    assert ("thicker-boards" in codes(findings)) is (taken and over > 0)


def test_boards_as_thick_as_planed_are_taken_before_thicker_ones():
    (of,), _ = planned(board(thickness=THICK + 2, count=3), board(count=2))
    assert {taken.thickness for taken in of.taken} == {THICK}


def test_boards_that_serve_two_thicknesses_are_not_taken_twice():
    thin = replace(LOT, number=2, name="others", thickness=THICK - 2)
    classes, _ = planned(board(count=1), lots=(LOT, thin))
    taken = [one for of in classes for one in of.taken if not one.bought]
    assert sum(one.count for one in taken) == 1


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
        assert taken.lengths > 1
        assert any(o.width == taken.width and o.length == taken.over_length and o.kept for o in of.offcuts)


def test_offcuts_are_kept_where_they_are_long_and_wide_enough():
    for name in ("sorrel", "tumbler", "garland"):
        plan = plan_of(name)
        least = plan.job.workshop.stock.least_offcut
        offcuts = [o for of in stocked(plan.job, lots_of(plan))[0] for o in of.offcuts]
        assert {o.kept for o in offcuts} == {True, False}
        assert all(o.kept == (o.length >= least and o.width >= 20) for o in offcuts)


def test_a_base_that_is_wanted_once_is_sawn_once_and_the_length_stays_whole():
    for name in ("sorrel", "vase", "bottle"):
        plan = plan_of(name)
        (base,) = [lot for lot in lots_of(plan) if lot.name == "base"]
        strips = [s for of in plan.wood.classes for b in of.boards for s in b.strips if s.lot == base.number]
        assert base.wanted == sum(strip.strips * strip.pieces for strip in strips) == 1
        assert all(strip.left == pytest.approx(base.left_of(strip.length, strip.pieces)) for strip in strips)


def test_the_last_strip_is_cut_no_further_than_wanted_though_the_rest_is_too_short_to_keep():
    (of,), _ = planned(bought_width=70.0, bought_length=900.0)
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


def test_where_first_fit_finds_a_way_its_area_is_a_number():
    job = with_boards(PLAN.job, board(count=2))
    (of,), _ = stocked(job, LOTS)
    assert of.first_fit < inf


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


def largest_length(job, lots):
    """Of boards at hand that suit, as they are crosscut, or of bought ones where none is at hand; mm2."""
    kinds = hand_kinds(job, lots, in_stock(job)) or [bought_kind(job, lots)]
    return max(kind.area for kind in kinds)


@pytest.mark.parametrize("seed", range(50))
def test_random_stocks_give_all_pieces_within_one_length_of_the_bound(seed):
    job, lots = randomly_stocked(seed)
    classes, shortages = wood_classes(job, lots)
    assert not shortages
    kerf, listed, cut = job.workshop.saw.kerf, Counter(), Counter()
    for board in job.workshop.stock.boards:
        listed[board.species, board.thickness, board.width, board.length] += board.count
    for of in classes:
        assert of.bound <= of.area * (1 + 1e-9)
        assert not one_source(of) or of.area <= of.first_fit + 1e-6
        if one_source(of):
            rests = [taken.width * taken.length for taken in of.taken if taken.rest_of is not None]
            largest = largest_length(job, [lot for lot in lots if lot.number in of.lots])
            assert of.area <= of.bound + max([largest, *rests])
        for sawn in of.boards:
            across = sum((strip.width + kerf) * strip.strips for strip in sawn.strips) - kerf
            assert across <= sawn.width - job.workshop.stock.edge_trim + 1e-5
            for strip in sawn.strips:
                cut[strip.lot] += strip.strips * strip.pieces * sawn.count
        for taken in of.taken:
            if not taken.bought and taken.rest_of is None:
                listed[of.species, taken.thickness, taken.width, taken.length] -= taken.count
    assert min(listed.values(), default=0) >= 0
    assert all(cut[lot.number] >= lot.wanted for lot in lots)


def test_a_board_without_a_size_that_suits_two_thicknesses_is_warned_of_once():
    thin = replace(LOT, number=2, name="others", thickness=THICK - 2)
    _, findings = planned(board(width=None), lots=(LOT, thin))
    assert codes(findings).count("board-without-size") == 1


def test_a_ready_strip_is_taken_before_a_board_is_ripped_and_keeps_its_thickness_note():
    ready = board(width=LOT.width + 0.4, length=2500, count=3, thickness=THICK + 2)
    (of,), findings = planned(ready, board(count=2, thickness=THICK + 2))
    assert any(sawn.ready for sawn in of.boards)
    assert all(sawn.width == ready.width for sawn in of.boards if sawn.ready)
    assert "thicker-boards" in codes(findings)


def test_the_offcuts_to_keep_are_those_that_were_measured():
    """Kept volume, kept sizes and the shop's least length tell one thing."""
    plan = plan_of("garland")
    for least in (50.0, 300.0, 700.0, 1000.0):
        job = with_stock(plan.job, least_offcut=least, boards=(board(count=2),))
        for of in stocked(job, LOTS)[0]:
            kept = [o for o in of.offcuts if o.length >= least and o.width >= 20]
            assert [o for o in of.offcuts if o.kept] == kept
            volume = sum(o.width * o.length * o.thickness * o.count for o in kept)
            assert of.volumes.kept == pytest.approx(volume)
            assert of.volumes.kept <= of.volumes.offcuts + 1e-6


def job_of(name, more=""):
    text = torus_text(more=more) if name == "torus" else vessel_text(name, more=more)
    return solve(parse(text, "loop.toml"))


def test_boards_are_bought_no_wider_for_pieces_that_a_board_at_hand_gives():
    base = plan_of("platter").wood.lots[0]
    assert base.count == 2
    size = f'species = "cherry", thickness = {base.thickness}, width = 300'
    for length, pieces in ((400, 1), (369, 2)):
        plan = job_of("platter", f"[stock]\nboards = [{{{size}, length = {length}}}]")
        assert plan.wood.lots[0].count == pieces
        (of,) = plan.wood.classes
        assert {taken.width for taken in of.taken if taken.bought} == {150.0}


def test_where_boards_at_hand_are_too_few_bought_ones_are_as_wide_as_a_strip_asks():
    wide = replace(LOT, width=200.0)
    job = with_boards(PLAN.job, board(width=260, length=500))
    assert widened(job, LOTS) == job
    larger = widened(job, (wide,)).workshop.stock
    assert larger.bought_width == 210.0
    assert larger.bought_length == job.workshop.stock.bought_length
    (of,), findings = stocked(with_stock(job, bought_width=larger.bought_width), (wide,))
    assert any(taken.bought for taken in of.taken)
    assert codes(findings) == ["not-enough-boards"]
    many = with_boards(PLAN.job, board(width=260, length=2000, count=9))
    assert widened(many, (wide,)) == many


def test_heights_chosen_from_boards_that_are_too_few_say_what_to_buy_and_that_it_is_planed():
    plan = plan_of("tumbler")
    (note,) = [note for note in plan.notes if note.code == "not-enough-boards"]
    assert (note.severity, note.key) == ("note", "stock.boards")
    of = next(of for of in plan.wood.classes if of.species == "ash")
    at_hand = [board for board in plan.job.workshop.stock.boards if board.species == "ash"]
    same = [board for board in at_hand if abs(board.thickness - of.thickness) < 0.01]
    taken = {taken.bought: taken for taken in of.taken}
    assert taken[False].count == sum(board.count for board in same)  # those of this very thickness first
    assert taken[True].thickness == rough_thickness(plan.job, of.thickness)
    assert f"buy {taken[True].count} of" in note.remedy
    planed = {layer.ring.height + plan.job.rings.flattening for layer in plan.stack.layers}
    listed = [board.thickness for board in plan.job.workshop.stock.boards]
    assert all(min(abs(one - other) for other in listed) < 1e-6 for one in planed)


@pytest.mark.parametrize("size", ["width = 8, length = 600", "width = 200, length = 100"])
def test_heights_are_chosen_from_boards_that_no_strip_fits_and_all_are_bought(size):
    boards = f'[stock]\nboards = [{{species = "maple", thickness = 20, {size}, count = 9}}]'
    text = vessel_text("vase", more=boards).replace('heights = "20 mm"', 'heights = "least wood"')
    plan = solve(parse(text, "vase.toml"))
    assert {layer.ring.height for layer in plan.stack.layers} == {19.7}
    (of,) = plan.wood.classes
    assert all(taken.bought for taken in of.taken)
    (note,) = [note for note in plan.notes if note.code == "not-enough-boards"]
    assert f"buy {of.taken[0].count} of at least 23.0 mm" in note.remedy


def test_of_boards_as_large_the_one_of_that_very_thickness_is_taken_first_however_they_are_listed():
    size = {"width": 75.0, "length": 1900.0}
    thicker, same = board(thickness=THICK + 2, count=2, **size), board(**size)
    for listed in ((thicker, same), (same, thicker)):
        (of,), _ = planned(*listed)
        assert sorted((taken.thickness, taken.count) for taken in of.taken) == [(THICK, 1), (THICK + 2, 1)]
