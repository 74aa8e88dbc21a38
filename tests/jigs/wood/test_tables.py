"""The tables of the wood: every lot, board, strip, offcut, glue face and band is in them, as the plan has it."""

import pytest

from jigs.stages.layup.plan import LayupPlan
from jigs.work.model import Cell
from tests.jigs.wood.whole_jobs import ALL, plan_of, torus
from tests.work.reading import rows, table, work_for
from tests.work.works import work_of

each = pytest.mark.parametrize("name", ALL)


def read(name: str, id: str) -> list[dict[str, Cell]]:
    return rows(table(work_of(name), id))


@each
def test_a_job_has_the_tables_of_what_it_has(name):
    plan, ids = plan_of(name), {table.id for table in work_of(name).tables}
    assert {"grain", "grain-joints", "glue-faces", "glue-batches", "weight", "values", "lathe"} <= ids
    assert ({"cut-list", "stock", "wood"} <= ids) == bool(plan.wood.lots)
    assert ("layup" in ids) == ("layup-ways" in ids) == ("layup-seams" in ids) == bool(plan.layups)
    assert ("kept-long" in ids) == bool(plan.wood.kept_long)
    assert all(table.rows for table in work_of(name).tables)


@each
def test_the_cut_list_has_every_lot_in_the_order_of_the_work(name):
    wood = plan_of(name).wood
    if not wood.lots:
        return
    found = [row for row in read(name, "cut-list") if row["lot"] is not None]
    assert [row["lot"] for row in found] == [line.lot for line in wood.lines]
    for lot, row in zip(wood.lots, sorted(found, key=lambda row: row["lot"]), strict=True):
        assert (row["count"], row["spares"], row["species"]) == (lot.count, lot.spares, lot.species)
        assert (row["rings"], row["stop"]) == (lot.rings, lot.stop)
        assert (row["thickness"], row["width"], row["longer"]) == (lot.thickness, lot.width, lot.longer)
        assert row["glued-longer"] <= row["longer"]


@each
def test_pieces_cut_at_a_stop_have_their_blades_height_in_the_cut_list(name):
    """One column of a torus's was empty."""
    found = read(name, "cut-list") if plan_of(name).wood.lots else []
    assert all(
        (row["blade-height"] is None) == (row["stop"] is None) for row in found if row["lot"] is not None
    )
    if plan_of(name).kind == "torus":
        set_to = [
            one.setting("blade-height") for one in work_of(name).operations if one.id == "segments.tilt"
        ]
        high = {row["blade-height"] for row in found if row["way"] == "turned over"}
        assert high <= {one.value for one in set_to}


@each
def test_the_cut_list_has_every_waste_block_that_the_shopping_list_has(name):
    if not plan_of(name).wood.lots:
        return
    blocks = sorted(row["pieces"] for row in read(name, "cut-list") if row["lot"] is None)
    bought = sorted(one.what for one in work_of(name).goods if one.id.startswith("hardwood.waste-block"))
    assert sorted(set(blocks)) == sorted(set(bought))
    assert bool(blocks) == (plan_of(name).kind == "vessel")


@each
def test_waste_is_what_neither_the_pieces_nor_the_offcuts_to_keep_take(name):
    if not plan_of(name).wood.lots:
        return
    kept = [row for row in read(name, "stock") if row["what"] == "offcut" and row["note"] == "keep"]
    for row in read(name, "wood"):
        own = [one for one in kept if (one["species"], one["planed"]) == (row["species"], row["planed"])]
        keep = sum(one["count"] * one["thickness"] * one["width"] * one["length"] for one in own)
        used = row["pieces"] + row["spares"] + keep
        assert row["waste"] * row["stock"] == pytest.approx(row["stock"] - used, rel=1e-6, abs=1.0)


@each
def test_the_rough_sizes_of_a_lot_are_of_the_boards_that_it_is_sawn_from(name):
    wood = plan_of(name).wood
    sawn = [
        (cut.lot, board.thickness, cut.width)
        for of in wood.classes
        for board in of.boards
        for cut in board.strips
    ]
    taken = {board.thickness + board.thin for of in wood.classes for board in of.taken}
    for line in wood.lines:
        assert set(line.rough) == {(thick, wide) for lot, thick, wide in sawn if lot == line.lot}
        assert all(any(abs(thick - there) < 1e-9 for there in taken) for thick, _ in line.rough)


@each
def test_the_stock_has_every_board_strip_and_offcut_but_slivers(name):
    classes = plan_of(name).wood.classes
    if not classes:
        return
    found = read(name, "stock")
    counts = {
        what: sum(r["count"] for r in found if r["what"] == what) for what in ("board", "strip", "offcut")
    }
    assert counts["board"] == sum(board.count for of in classes for board in of.taken)
    assert counts["strip"] == sum(
        b.count * cut.strips for of in classes for b in of.boards for cut in b.strips
    )
    left = [one for of in classes for one in of.offcuts]
    large = [one for one in left if one.kept or min(one.thickness, one.width, one.length) >= 3.0]
    assert counts["offcut"] == sum(one.count for one in large)
    pieces = sum(r["count"] * r["pieces-each"] for r in found if r["what"] == "strip")
    assert pieces >= sum(lot.wanted for lot in plan_of(name).wood.lots)


@each
def test_where_the_wood_goes_adds_up_and_no_plan_takes_less_than_the_least(name):
    classes = plan_of(name).wood.classes
    if not classes:
        return
    for of, row in zip(classes, read(name, "wood"), strict=True):
        assert row["sawn-least"] <= row["sawn"]
        assert row["boards-least"] <= row["boards-bought"]
        parts = ("pieces", "spares", "kerf", "planed-off", "trimmed", "offcuts")
        assert sum(row[part] for part in parts) == pytest.approx(row["stock"]) == of.volumes.stock


@each
def test_the_glue_tables_sum_to_the_plan(name):
    glue = plan_of(name).wood.glue
    assert sum(row["area"] for row in read(name, "glue-faces")) == pytest.approx(
        sum(face.area for face in glue.faces)
    )
    assert sum(row["batches"] for row in read(name, "glue-batches")) == sum(
        stage.batches for stage in glue.stages
    )
    if glue.bands:
        found = [(row["around"], row["length"]) for row in read(name, "glue-bands")]
        assert found == [(band.around, band.length) for band in glue.bands]


@pytest.mark.parametrize("name", ["plied torus", "plied vase"])
def test_the_layups_table_counts_what_is_bought_glued_and_cut(name):
    found = read(name, "layup")
    for layup in plan_of(name).layups:
        own = [row for row in found if row["rings"] == layup.rings]
        _counted(layup, {str(row["what"]): row for row in own})


def _counted(layup: LayupPlan, own: dict[str, dict[str, Cell]]) -> None:
    plies = [row for what, row in own.items() if what.startswith("ply of ")]
    assert sum(row["count"] for row in plies) == len(layup.names) * layup.way.sheets
    assert own["strip as ripped"]["count"] == layup.way.strips_in_all
    assert own["piece"]["count"] == layup.pieces + layup.spares
    assert own["block"]["count"] == layup.blocks
    assert (own["rail of scrap"]["count"], own["rail of scrap"]["length"]) == (
        layup.rail.rails,
        layup.rail.length,
    )


def test_mitres_are_nearly_end_grain_and_the_table_says_what_carries_them():
    ring, vessel = (read(name, "grain-joints") for name in ("garland", "sorrel"))
    (mitre,) = [row for row in ring if row["joints"] == "mitres"]
    assert mitre["grain-a"] == mitre["grain-b"] == pytest.approx(0.314159, abs=1e-5)
    assert mitre["beside"] == "long grain carries it"
    assert {row["beside"] for row in vessel if row["joints"] == "mitres"} == {"long grain crosses it"}


def test_weights_of_unknown_woods_are_unknown_and_not_summed():
    told = work_for(torus('species = "bog oak"'))
    (row,) = rows(table(told, "weight"))
    assert row["before"] is None
    assert row["after"] is None
    assert not [cell.id for (_, cell) in table(told, "lathe").rows if cell.id == "weight"]
