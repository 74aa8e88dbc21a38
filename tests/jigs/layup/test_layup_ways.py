"""Ways to the pieces of a layup, and the sheets that their strips come from."""

import math
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from geometry.blanks.layup import square_stack
from jigs.asked.job_wood import Board
from jigs.asked.vessel_job import VesselJob
from jigs.plans.torus import TorusPlan
from jigs.stages.layup.solve.sheets import Sheet, StripSize, areas, take
from jigs.stages.layup.solve.whole import vessel_layups
from tests.jigs.layup.layup_jobs import hoop, of_hoop, of_vessel, vessel, with_layup

sheet_sides = st.floats(40, 900)
wishes = st.fixed_dictionaries(
    {
        "angle": st.floats(0.01, 89.99) | st.sampled_from((0.0, 45.0, 90.0)),
        "mirrored": st.sampled_from(("none", "left and right", "up and down", "both")),
        "stacking": st.sampled_from(("auto", "square", "staggered")),
        "sheet_width": st.floats(60, 900),
        "sheet_length": st.floats(250, 2000),
    }
)


@given(wishes)
def test_every_way_gives_the_pieces_from_strips_that_its_sheets_give(wish: dict[str, object]) -> None:
    layup = of_hoop(**wish)
    for way in layup.ways:
        assert way.stacks * way.pieces >= layup.pieces + layup.spares > (way.stacks - 1) * way.pieces
        assert way.strips * layup.layup.sheet >= layup.layup.height - 1e-6
        assert way.strip_length <= float(str(wish["sheet_length"])) or way.kind == "one by one"
        assert way.wood - way.waste == pytest.approx(
            way.stacks * way.pieces * layup.layup.a * layup.layup.b * layup.layup.depth
        )
        assert way.wood == pytest.approx(
            way.strips_in_all * way.strip_length * layup.layup.sheet * layup.layup.depth
        )


@given(wishes)
def test_the_way_with_fewest_stacks_for_little_more_wood_comes_first_and_one_by_one_is_among_them(
    wish: dict[str, object],
) -> None:
    ways = of_hoop(**wish).ways
    chosen, *others = ways
    held = [way for way in ways if way.strip_length >= 300] or ways
    least = min(way.wood for way in held)
    assert chosen in held
    assert chosen.wood <= 1.1 * least * (1 + 1e-9)
    assert all(chosen.stacks <= way.stacks for way in held if way.wood <= 1.1 * least)
    costs = [(way.sheets, round(way.wood, 3), way.cuts) for way in others]
    assert costs == sorted(costs)
    assert "one by one" in [way.kind for way in ways]
    kinds = {way.kind for way in ways if way.kind != "one by one"}
    assert len(kinds) <= 1 or wish["stacking"] == "auto"
    if wish["stacking"] == "square":
        assert not any(way.stagger for way in ways)
    assert all(way.stagger == 0 or way.stagger >= 1 for way in ways)


@pytest.mark.parametrize("angle", [20.0, 45.0, 70.0])
def test_strips_are_set_back_where_that_is_asked_for(angle: float) -> None:
    ways = of_hoop(angle=angle, stacking="staggered").ways
    assert all(way.stagger >= 1 for way in ways)
    assert all(way.stagger == 0 for way in of_hoop(angle=angle, stacking="square").ways)


@pytest.mark.parametrize("angle", [1.0, 89.0])
def test_strips_are_never_set_back_by_less_than_a_person_can_set(angle: float) -> None:
    for stacking in ("auto", "staggered"):
        assert all(
            way.stagger == 0 for way in of_hoop(angle=angle, stacking=stacking).ways if way.cut_angle > 0.3
        )


@given(wishes)
def test_the_wood_of_the_sheets_is_accounted_for_to_the_cubic_millimetre(wish: dict[str, object]) -> None:
    layup = of_hoop(**wish)
    if layup.way.strip_length <= float(str(wish["sheet_length"])):
        assert abs(layup.volumes.left) < 1
        assert min(vars(layup.volumes).values()) >= -1e-6


@given(
    st.integers(1, 200),
    st.tuples(sheet_sides, sheet_sides),
    st.floats(5, 60),
    st.floats(10, 900),
    st.floats(0, 4),
)
@example(1, (40.0, 40.0), 5.0, 40.00000000000001, 0.0)
def test_strips_and_cuts_and_rest_make_up_the_sheet(
    strips: int, sides: tuple[float, float], width: float, length: float, kerf: float
) -> None:
    size, new = StripSize(width, length, kerf), Sheet(*sides)
    taken = take(strips, size, (), new)
    if not taken:
        assert width > sides[0] or length > sides[1]
        return
    assert width - 1e-8 < sides[0]
    assert length - 1e-8 < sides[1]
    assert sum(t.sheets * t.strips for t in taken) == strips
    for part in taken:
        cut, rest = areas(part, size)
        assert cut + rest + part.strips * width * length == pytest.approx(sides[0] * sides[1])
        assert rest >= 0
    assert (
        size.rips(new) * (width + kerf) - kerf
        <= sides[0] + 1e-6
        < (size.rips(new) + 1) * (width + kerf) - kerf + 2e-6
    )


def test_sheets_at_hand_are_used_first() -> None:
    plan = hoop()
    shop = plan.job.workshop
    sheets = (
        Board("layup", 6.0, 120.0, 650.0, 3),
        Board("layup", 9.0, 300.0, 600.0, 9),
        Board("ply", 6.0, 300.0, 600.0, 9),
    )
    stock = replace(shop.stock, sheets=sheets)
    job = replace(plan.job, workshop=replace(shop, stock=stock))
    with_hand, without = of_hoop(replace(plan, job=job)), of_hoop()
    kerf, way = shop.saw.kerf, with_hand.way

    def strips(width: float, length: float) -> int:
        across = int((width + kerf) // (with_hand.strip_width + kerf))
        return across * int((length + kerf) // (way.strip_length + kerf))

    bought = math.ceil((way.strips_in_all - 3 * strips(120, 650)) / strips(300, 600))
    assert way.from_hand == way.strips_in_all - bought * strips(300, 600) > 0
    assert way.sheets < without.way.sheets
    assert abs(with_hand.volumes.left) < 1


def test_the_pitch_is_the_chosen_ways() -> None:
    layup = of_hoop(stacking="square")
    assert layup.way.pitch == square_stack(layup.layup, 3).pitch


@pytest.mark.parametrize("angle", [4.0, 12.0, 78.0, 86.0])
@pytest.mark.parametrize("stacking", ["auto", "staggered"])
def test_a_cut_too_slanted_for_the_sled_is_left_out_where_there_is_another(
    angle: float, stacking: str
) -> None:
    for way in of_hoop(angle=angle, stacking=stacking).ways:
        assert way.cut_angle >= math.radians(15)


def test_a_sheet_at_hand_is_cut_up_once_for_all_sizes() -> None:
    plan = vessel("vase")
    shop = plan.job.workshop
    stock = replace(shop.stock, sheets=(Board("layup", 6.0, 150.0, 600.0, 1),))
    job = replace(with_layup(plan.job), workshop=replace(shop, stock=stock))
    assert isinstance(job, VesselJob)
    layups = vessel_layups(job, plan.stack, plan.saws.strips_held)
    assert layups[0].way.from_hand
    assert max(abs(layup.volumes.left) for layup in layups) < 1
    made = sum(layup.way.sheets for layup in layups) * 300 * 600
    assert sum(layup.volumes.stock for layup in layups) == pytest.approx((made + 150 * 600) * 6)


def test_what_is_left_of_a_made_sheet_serves_the_rings_after_and_counts_once() -> None:
    layups = of_vessel("vase")
    assert any(layup.way.from_hand for layup in layups[1:])  # with no sheet in the stock
    alone = [of_vessel("vase", rings=layup.rings)[0].way.sheets for layup in layups]
    made = sum(layup.way.sheets for layup in layups)
    assert made < sum(alone)
    assert sum(layup.volumes.stock for layup in layups) == pytest.approx(made * 300 * 600 * 6)
    assert max(abs(layup.volumes.left) for layup in layups) < 1
    assert min(min(vars(layup.volumes).values()) for layup in layups) > -1e-6


def with_sheets(plan: TorusPlan, *sheets: Board, **shop: object) -> TorusPlan:
    stock = replace(plan.job.workshop.stock, sheets=sheets, **shop)
    return replace(plan, job=replace(plan.job, workshop=replace(plan.job.workshop, stock=stock)))


def test_sheets_at_hand_too_short_for_the_longest_rows_are_used_for_shorter_ones() -> None:
    layup = of_hoop(with_sheets(hoop(), Board("layup", 6.0, 300.0, 400.0, 40)))
    assert layup.way.from_hand == layup.way.strips_in_all
    assert layup.way.sheets == 0
    assert of_hoop().way.strip_length > 400 > layup.way.strip_length
    assert layup.volumes.stock == pytest.approx(round(layup.volumes.stock / 720000) * 720000)


def test_sheets_lose_an_edge_and_both_ends_before_any_strip() -> None:
    plan = with_sheets(hoop(), edge_trim=0.0, end_trim=0.0)
    bare, trimmed = of_hoop(plan), of_hoop(with_sheets(hoop(), edge_trim=8.0, end_trim=25.0))
    assert bare.volumes.trimmed == 0
    assert trimmed.way.strip_length <= 600 - 50
    used = trimmed.volumes.stock / (300 * 600 * 6)
    assert trimmed.volumes.trimmed == pytest.approx(used * (300 * 600 - 292 * 550) * 6)
    assert abs(trimmed.volumes.left) < 1


def test_both_ends_of_a_stack_are_sawn_off_before_and_after_the_pieces() -> None:
    layup = of_hoop(stacking="square")
    way, kerf = layup.way, layup.layup.kerf
    row = square_stack(layup.layup, 1).strip_length + (way.pieces - 1) * way.pitch
    assert way.strip_length == pytest.approx(row + 2 * (kerf + 2))
    assert way.foot == pytest.approx(square_stack(layup.layup, 1).foot + kerf + 2)


@given(wishes)
def test_a_way_with_less_wood_says_why_it_is_not_taken(wish: dict[str, object]) -> None:
    chosen, *others = of_hoop(**wish).ways
    assert chosen.against is None
    for way in others:
        if way.against == "short strips":
            assert way.strip_length < 300 <= chosen.strip_length
        elif way.against == "more stacks":
            assert way.stacks > chosen.stacks
        elif way.against == "set back":
            assert way.stagger > 0
            assert chosen.stagger == 0
            assert way.sheets >= chosen.sheets
        else:
            assert way.wood >= chosen.wood or way.sheets > chosen.sheets
