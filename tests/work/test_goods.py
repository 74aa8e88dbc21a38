"""The shopping list of every job: what all operations use up, once."""

from __future__ import annotations

import csv
import io
import re
from math import cos, pi

import pytest

from jigs.forms.work import work
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.render.lines import amount_text, by_group, shown
from jigs.render.tables_csv import csv_tables
from jigs.sets.rack import draw
from jigs.words.quantity import Quantity
from jigs.work.at_hand import tools
from jigs.work.goods import ADD_UP, GROUPS, goods_of
from jigs.work.hardware import bolts, pieces, sunk
from jigs.work.model import Goods, Operation, Work
from jigs.work.supplies import of_all
from tests.jigs.wood.whole_jobs import ALL, plan_of, torus, vessel
from tests.work.reading import work_for
from tests.work.works import count_and_size, work_of

each = pytest.mark.parametrize("name", ALL)


def counted(work: Work, start: str) -> int:
    """Pieces of all goods whose id begins so."""
    return sum(int(_value(one, "count")) for one in work.goods if one.id.startswith(start))


def _value(goods: Goods, id: str) -> float:
    return float(next(q.value for q in goods.amount if q.id == id))


def _operation(*goods: Goods, id: str = "a.b") -> Operation:
    return Operation(id, "Do it.", "bench", uses_up=goods)


@each
def test_every_line_has_its_own_id_a_known_group_and_no_amount_below_nothing(name: str) -> None:
    goods = work_of(name).goods
    assert len({one.id for one in goods}) == len(goods)
    for one in goods:
        assert one.group in GROUPS
        assert one.amount
        assert len({q.id for q in one.amount}) == len(one.amount)
        assert all(float(q.value) > 0 for q in one.amount), one


@each
def test_what_does_not_come_free_is_the_sum_of_what_operations_use(name: str) -> None:
    work = work_of(name)
    all_used = [
        *(own for o in work.operations for own in o.uses_up),
        *of_all(plan_of(name)),
        *tools(plan_of(name)),
    ]
    assert {own.id for own in all_used} == {one.id for one in work.goods}
    for one in work.goods:
        used = [own for own in all_used if own.id == one.id]
        if one.again:
            continue
        for amount in one.amount:
            if amount.kind in ADD_UP:
                total = sum(_value(own, amount.id) for own in used)
                slack = 1.0 if amount.kind == "count" else 1e-6 * (1 + total)
                assert total - 1e-6 <= float(amount.value) < total + slack


@each
def test_the_glue_is_that_of_all_joints_and_of_layers_and_as_much_again(name: str) -> None:
    work, joints = work_of(name), plan_of(name).wood.glue.grams
    glue = next(one for one in work.goods if one.id == "glue")
    layers = [_value(own, "weight") for o in work.operations for own in o.uses_up if own.id == "glue"]
    assert _value(glue, "weight") == pytest.approx(2 * joints + sum(layers))
    shares = {q.id.partition(".")[2]: float(q.value) for q in glue.amount if q.id != "weight"}
    assert sum(shares.values()) == pytest.approx(_value(glue, "weight"))
    assert (shares["joints"], 2 * shares["lost"]) == pytest.approx((joints, _value(glue, "weight")))
    told = amount_text(glue, work.unit)
    assert all(label in told for label in ("in the work's joints", "in the pot and squeezed out"))


@pytest.mark.parametrize(("form", "faces"), [("", 1), ("spacer = 2\nspacer_species = 'walnut'", 2)])
@pytest.mark.parametrize(("halves", "first"), [("half_sanding = 0", 0), ("", 1)])
def test_the_glue_of_scrap_rings_is_counted_by_their_own_joints(
    form: str, faces: int, halves: str, first: int
) -> None:
    """Those of the check corner, and of the first trial where it is cut as a half's end; strips have two faces each."""
    plan = torus(f"{form}\n{halves}")
    depth = plan.segment.depth / cos(pi / 8)
    rings = plan.wood.scraps[1].count + first
    grams = rings * plan.blank.segments * faces * depth * plan.segment.length * 180e-6
    glue = next(one for one in work_for(plan).goods if one.id == "glue")
    assert _value(glue, "weight.trials") == pytest.approx(grams)


@each
def test_boards_on_the_list_are_those_that_the_plan_buys_and_takes(name: str) -> None:
    taken = [board for of in plan_of(name).wood.classes for board in of.taken]
    assert counted(work_of(name), "board.") - _jig_boards(name) == sum(b.count for b in taken if b.bought)
    assert counted(work_of(name), "stock.") == sum(b.count for b in taken if not b.bought)


def _jig_boards(name: str) -> int:
    """Sheets called board, for what spins."""
    return sum(
        int(_value(one, "count"))
        for one in work_of(name).goods
        if one.id.startswith("board.") and one.group != "boards"
    )


@each
def test_jobs_in_inches_have_no_millimetre_on_the_list(name: str) -> None:
    work = work_of(name)
    told = " ".join(amount_text(one, work.unit) for one in work.goods)
    if work.unit == "in":
        assert not re.search(r"\d\s*mm\b|m²|m³", told)
        assert "board feet" in told
    else:
        assert not re.search(r"\d in\b|ft²|oz", told.replace("in all", ""))


@each
def test_the_table_has_every_line_and_number(name: str) -> None:
    work = work_of(name)
    rows = list(csv.DictReader(io.StringIO(csv_tables(work)["shopping.csv"])))
    assert [row["id"] for row in rows] == [one.id for one in work.goods]
    for row, one in zip(rows, work.goods, strict=True):
        assert len([v for k, v in row.items() if v and k not in ("id", "group", "what", "cost")]) == len(
            one.amount
        )


@each
def test_groups_stand_together(name: str) -> None:
    groups = [group for group, _ in by_group(work_of(name).goods)]
    assert len(set(groups)) == len(groups)


@each
def test_filament_weighs_what_the_printed_parts_do(name: str) -> None:
    work = work_of(name)
    grams = sum(entry.grams or 0.0 for entry in work.rack)
    listed = sum(_value(one, "weight") for one in work.goods if one.group == "filament")
    assert listed == pytest.approx(grams)


def test_paper_for_the_joints_grows_with_them_and_plies_take_none() -> None:
    plied, solid = plan_of("plied torus").wood.glue, plan_of("garland").wood.glue
    of_solid, of_plied = (sum(face.area for face in glue.faces) for glue in (solid, plied))
    assert solid.sanded == pytest.approx(2 * of_solid)
    assert 0 < plied.sanded < 0.5 * of_plied
    paper = next(one for one in work_of("garland").goods if one.id == "abrasive.120")
    assert _value(paper, "count") >= solid.sanded / 5 / (230 * 280)


def test_every_hold_down_of_every_sled_has_its_bolts() -> None:
    """Two to hang each slide, one for each cam."""
    for name in ("garland", "plied torus", "staved"):
        work = work_of(name)
        guides = [o for o in work.operations if o.id.startswith("building.") and o.id.endswith("-holds")]
        assert len(guides) >= (1 if name == "garland" else 2)
        hung = sum(
            count_and_size(setting)[0] for o in guides for setting in o.settings if setting.id == "bolt.guide"
        )
        assert counted(work, "bolt.m6-x-35.flush-lock-nut") >= hung > 0
        assert counted(work, "pin.brass") > 0


def test_a_job_with_a_second_sled_lists_the_bolts_of_both() -> None:
    one = sum_of_bolts(torus())
    both = sum_of_bolts(torus(more="[cutting]\nplan_angle_sled = true\n"))
    assert both > one


def sum_of_bolts(plan: TorusPlan) -> int:
    proof = draw(plan)
    return counted(work(proof.plan, proof.parts, proof.notes), "bolt.m6")


def test_a_vessel_has_a_waste_block_and_screws_for_its_faceplate() -> None:
    plan, work = plan_of("vase"), work_of("vase")
    assert isinstance(plan, VesselPlan)
    waste = next(one for one in work.goods if one.id == "hardwood.waste-block")
    assert _value(waste, "width") == _value(waste, "length") == plan.waste.most
    plug = plan.reversing.plug
    assert plug is not None
    assert plug.screws.depth < plug.back - plug.face
    assert counted(work, "screw.") == plan.waste.screws.count + plug.screws.count


def test_tape_goes_once_round_every_ring() -> None:
    """The spare ones and those of scrap are rolled up too; 100 mm more for each one's ends."""
    plan, work = plan_of("garland"), work_of("garland")
    assert isinstance(plan, TorusPlan)
    tape = next(one for one in work.goods if one.id == "tape")
    rings = (
        sum(one.pieces for one in work.operations if one.id in ("rings.lay-out", "rings.scrap")) + 1
    )  # LAST
    assert _value(tape, "run") == pytest.approx(rings * (plan.wood.glue.band(1).around + 100))
    assert _value(tape, "count") == 1


@pytest.mark.parametrize(("lining", "lines"), [("1", 2), ("0", 0)])
def test_what_lines_channel_and_retainer_is_bought(lining: str, lines: int) -> None:
    goods = work_for(torus(f"lining = {lining}")).goods
    lined = [one for one in goods if one.id.startswith("lining.")]
    assert len(lined) == lines
    assert all(_value(one, "thickness") == 1 for one in lined)


def test_a_lined_plug_takes_a_strip_as_long_as_it_is_round() -> None:
    plan = vessel("vase", "[reversing]\nlining = 1\n")
    strip = next(one for one in work_for(plan).goods if one.id == "lining.mouth-plug")
    assert plan.reversing.plug is not None
    assert _value(strip, "length") == pytest.approx(pi * plan.reversing.plug.jam_diameter)


def test_a_faceplates_screws_serve_board_after_board() -> None:
    plan = plan_of("garland")
    assert isinstance(plan, TorusPlan)
    board, plug = plan.mountings.board_screws, plan.mountings.retainer_screws
    assert (board.across, board.depth) == (plug.across, plug.depth)
    assert counted(work_of("garland"), "screw.5") == max(board.count, plug.count)
    assert counted(work_of("garland"), "bolt.centre") == 1


def test_counts_are_summed_before_they_are_rounded_up() -> None:
    goods = Goods("paper", "abrasives", "sheet", (pieces(0.4),))
    (found,) = goods_of([_operation(goods), _operation(goods)])
    assert found.amount[0].value == 1
    (found,) = goods_of([_operation(goods, goods), _operation(goods)])
    assert found.amount[0].value == 2


def test_what_comes_free_counts_as_the_operation_that_needs_most() -> None:
    few, many = (Goods("screw", "hardware", "screw", (pieces(n),), again=True) for n in (4, 6))
    (found,) = goods_of([_operation(few), _operation(many), _operation(few)])
    assert found.amount[0].value == 6
    (found,) = goods_of([_operation(few, many)])
    assert found.amount[0].value == 10


def test_bolts_of_one_size_are_one_line_and_others_their_own() -> None:
    first, second, third = (
        bolts("a", "A", 2, "M6", 24),
        bolts("b", "B", 3, "M6", 25),
        bolts("c", "C", 1, "M6", 60),
    )
    found = goods_of(
        [_operation(*first.goods, *second.goods, *third.goods), _operation(*sunk("d", "M4", 4, 21).goods)]
    )
    assert [one.amount[0].value for one in found] == [5, 1, 4]


def test_a_hole_deeper_than_any_bolt_gets_threaded_rod() -> None:
    (goods,) = bolts("a", "A", 2, "M6", 400).goods
    assert goods.id.startswith("rod.m6")
    assert _value(goods, "length") > 400


@pytest.mark.parametrize(
    ("quantity", "mm", "inches"),
    [
        (Quantity("a", "", 1e6, "spread"), "1.00 m²", "10.8 ft²"),
        (Quantity("a", "", 144 * 25.4**3, "timber"), "0.0024 m³", "1.0 board feet"),
        (Quantity("a", "", 430_000.0, "timber"), "0.00043 m³", "0.18 board feet"),
        (Quantity("a", "", 1e6, "liquid"), "1000 ml", "33.8 fl oz"),
    ],
)
def test_amounts_are_told_in_the_units_of_the_trade(quantity: Quantity, mm: str, inches: str) -> None:
    assert shown(quantity, "mm") == mm
    assert shown(quantity, "in") == inches


@each
def test_what_must_be_at_hand_is_listed_and_never_priced(name: str) -> None:
    work = work_of(name)
    found = {one.id: one for one in work.goods}
    for id in ("tool.clamp", "tool.faceplate-of-the-lathe", "tool.feeler-gauges", "waxed-paper"):
        assert id in found
    assert all(found[id].cost is None for id in found if id.startswith("tool."))
    scrap = [one for one in work.goods if one.id.startswith("scrap.")]
    assert counted(work, "scrap.") == sum(scrap.strips for scrap in plan_of(name).wood.scraps)
    assert all(_value(one, "thickness") > 0 for one in scrap)


def test_pins_are_listed_with_their_sizes() -> None:
    for name, brass in (("garland", 2.0), ("quoit", 25.4 / 16)):
        pin = next(one for one in work_of(name).goods if one.id == "pin.brass")
        assert _value(pin, "across") == brass
        assert all(
            _value(one, "length") > 20 for one in work_of(name).goods if one.id.startswith("pin.steel")
        )
