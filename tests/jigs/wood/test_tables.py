"""The tables, read back by the standard library."""

import csv
import io
from math import degrees

import pytest

from jigs.extras import TABLES
from jigs.words.wood.csv import tables
from tests.jigs.wood.whole_jobs import ALL, TORI, VESSELS, plan_of

each = pytest.mark.parametrize("name", ALL)
FILES = ("cut-list.csv", "settings.csv", "stock.csv", "glue.csv")


def read(name: str, file: str, unit: str = "mm") -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(tables(plan_of(name, unit))[file])))


@each
def test_there_is_a_table_of_whole_rows_and_plain_line_ends_for_all_that_a_job_has(name):
    plan, found = plan_of(name), tables(plan_of(name))
    wanted = set(FILES) if plan.wood.lots else {"settings.csv", "glue.csv"}
    assert set(found) <= set(TABLES)  # each with what it is for, in the list of a set's files
    assert set(found) == wanted | ({"layup.csv"} if plan.layups else set())
    for text in found.values():
        assert "\r" not in text
        assert text.endswith("\n")
        rows = list(csv.reader(io.StringIO(text)))
        assert len({len(row) for row in rows}) == 1
        assert len(set(rows[0])) == len(rows[0])
        assert len(rows) > 1


@each
def test_the_cut_list_has_every_lot_in_mm(name):
    wood = plan_of(name).wood
    if not wood.lots:
        return
    rows = read(name, "cut-list.csv")
    assert [int(row["step"]) for row in rows] == sorted(int(row["step"]) for row in rows)
    for lot, row in zip(wood.lots, sorted(rows, key=lambda row: int(row["lot"])), strict=True):
        assert (int(row["lot"]), int(row["count"]), int(row["spares"])) == (lot.number, lot.count, lot.spares)
        assert row["species"] == lot.species
        assert [int(ring) for ring in row["rings"].split()] == list(lot.rings)
        assert float(row["cut_longer_edge_mm"]) == pytest.approx(lot.longer, abs=5.1e-3)
        assert float(row["thickness_mm"]) == pytest.approx(lot.thickness, abs=5.1e-3)
        assert (row["stop_mm"] == "") == (lot.stop is None)


@each
def test_the_settings_are_those_of_the_steps(name):
    rows = read(name, "settings.csv")
    steps = plan_of(name).wood.steps
    assert [row["step"] for row in rows] == [str(s.number) for s in steps for _ in s.settings or (None,)]
    told = [setting for step in steps for setting in step.settings]
    for setting, row in zip(told, (row for row in rows if row["setting"]), strict=True):
        column = {"angle": "value_deg", "count": "value", "text": "value"}.get(setting.kind, "value_mm")
        if setting.kind == "text":
            assert row[column] == setting.value
        else:
            value = degrees(setting.value) if setting.kind == "angle" else setting.value
            assert float(row[column]) == pytest.approx(value, abs=5.1e-3)


@each
def test_the_stock_has_every_board_strip_and_offcut(name):
    classes = plan_of(name).wood.classes
    if not classes:
        return
    rows = read(name, "stock.csv")
    counts = {
        what: sum(int(r["count"]) for r in rows if r["what"] == what) for what in ("board", "strip", "offcut")
    }
    assert counts["board"] == sum(board.count for of in classes for board in of.taken)
    assert counts["strip"] == sum(
        b.count * cut.strips for of in classes for b in of.boards for cut in b.strips
    )
    assert counts["offcut"] == sum(offcut.count for of in classes for offcut in of.offcuts)
    plans = [row for row in rows if row["what"] == "plan"]
    for of, row in zip(classes, plans, strict=True):
        assert float(row["least_possible_cm2"]) <= float(row["sawn_cm2"])
        assert float(row["wood_cm3"]) == pytest.approx(of.volumes.stock / 1000, abs=1e-3)
    pieces = sum(int(r["count"]) * int(r["pieces_each"]) for r in rows if r["what"] == "strip")
    assert pieces >= sum(lot.wanted for lot in plan_of(name).wood.lots)


@each
def test_the_glue_table_sums_to_the_plan(name):
    glue, rows = plan_of(name).wood.glue, read(name, "glue.csv")
    area = sum(float(row["area_cm2"]) for row in rows if row["what"] == "faces")
    assert area == pytest.approx(glue.area / 100, abs=1e-3 * len(rows))
    assert sum(int(row["batches"]) for row in rows if row["what"] == "batches") == glue.batches
    lengths = [float(row["length_mm"]) for row in rows if row["what"] == "band"]
    assert lengths == pytest.approx([band.length for band in glue.bands], abs=5.1e-3)


@pytest.mark.parametrize("name", [*TORI, *VESSELS])
def test_a_job_in_inches_has_them_beside_every_length(name):
    for file in FILES:
        for row in read(name, file, "in"):
            lengths = [column for column in row if column.endswith("_mm")]
            for column in lengths:
                inches = row[f"{column[:-3]}_in"]
                assert (inches == "") == (row[column] == "")
                for inch, mm in zip(inches.split(" or "), row[column].split(" or "), strict=True):
                    assert not inch or float(inch) == pytest.approx(float(mm) / 25.4, abs=7.1e-4)
        assert not [column for column in read(name, file)[0] if column.endswith("_in")]


def test_a_comma_in_a_cell_is_kept():
    rows = read("garland", "settings.csv")
    assert any("," in row["work"] for row in rows)
    assert {row["machine"] for row in rows} <= {"planer", "table saw", "bandsaw", "bench"}


@pytest.mark.parametrize("name", ["plied torus", "plied vase"])
def test_the_layups_table_counts_what_is_bought_glued_and_cut(name):
    plan, rows = plan_of(name), read(name, "layup.csv")
    for layup in plan.layups:
        own = {
            row["what"]: row for row in rows if row["rings"].split() == [str(ring) for ring in layup.rings]
        }
        plies = [row for what, row in own.items() if what.startswith("ply of ")]
        assert sum(int(row["count"]) for row in plies) == len(layup.names) * layup.way.sheets
        assert int(own["strip as ripped"]["count"]) == layup.way.strips_in_all
        assert int(own["piece"]["count"]) == layup.pieces + layup.spares
        assert int(own["block"]["count"]) == layup.blocks
        rail = own["rail of scrap"]
        assert int(rail["count"]) * float(rail["length_mm"]) == pytest.approx(
            layup.rail.rails * layup.rail.length, abs=0.1
        )
