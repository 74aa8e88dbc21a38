"""A size has one number, wherever it is told: in the sections of the report, in the listing, in the tables."""

import csv
import io
import re

import pytest

from jigs.jobfile import load
from jigs.solve import solve
from jigs.words.report import sections
from jigs.words.wood.csv import tables
from tests.conftest import CONFIGS
from tests.jigs.wood.wood_jobs import NAMES, ODD, VESSELS, plan_of

EXAMPLES = (*NAMES, "trellis")
MM = r"(\d+\.\d+) mm"


def plan(name):
    return solve(load(CONFIGS / "trellis.toml")) if name == "trellis" else plan_of(name)


def rows(name, title):
    return {
        row.name: str(row.value)
        for section in sections(plan(name))
        if section.title == title
        for row in section.rows
    }


def records(name, file):
    return list(csv.DictReader(io.StringIO(tables(plan(name))[file])))


def alike(shown, cell):
    """A length as the report shows it, and as a table has it."""
    return float(shown) == pytest.approx(float(cell), abs=1e-9)


@pytest.mark.parametrize("name", [n for n in (*EXAMPLES, *ODD, *VESSELS) if n not in ("quoit", "tumbler")])
def test_a_setting_reads_alike_in_the_order_of_the_work_and_in_its_table(name):
    told = rows(name, "Order of the work")
    for record in records(name, "settings.csv"):
        if record["value_mm"]:
            told_of = told[f"{record['step']}. set"]
            shown = re.search(rf"{re.escape(record['setting'])} {MM}", told_of)
            assert shown, (record["setting"], told_of)
            assert alike(shown[1], record["value_mm"])


@pytest.mark.parametrize("name", [n for n in (*NAMES, *ODD, *VESSELS) if n not in ("quoit", "tumbler")])
def test_a_lot_reads_alike_in_the_cut_list_and_in_its_table(name):
    told = rows(name, "Cut list")
    for record in records(name, "cut-list.csv"):
        finished = told[f"lot {record['lot']}"]
        cut = told[f"lot {record['lot']}, cut in step {record['step']}"]
        assert f"{record['count']} and {record['spares']} to spare" in finished
        sizes = [float(size) for size in re.findall(MM, finished)]
        columns = ("thickness", "finished_width", "finished_longer_edge", "finished_shorter_edge")
        cells = [float(record[f"{column}_mm"]) for column in columns]
        assert sizes == cells[: len(sizes)]
        rough = cut.split("rough ")[1].split(";")[0]
        widths = {(float(a), float(b)) for a, b in re.findall(rf"{MM} x {MM}", rough)}
        assert {a for a, _ in widths} == {float(x) for x in record["rough_thickness_mm"].split(" or ")}
        assert {b for _, b in widths} == {float(x) for x in record["rough_width_mm"].split(" or ")}


@pytest.mark.parametrize("name", [*NAMES, *ODD, *VESSELS])
def test_the_rough_sizes_of_a_lot_are_of_the_boards_that_it_is_sawn_from(name):
    wood = plan(name).wood
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


@pytest.mark.parametrize("name", ["bottle", "tumbler"])
def test_strips_between_segments_are_as_long_at_the_sled_as_in_the_cut_list(name):
    told = [
        row
        for section in sections(plan(name))
        for row in section.rows
        if row.name.endswith("strips between segments")
    ]
    lots = {lot.number: lot for lot in plan(name).wood.lots if lot.piece == "spacer"}
    assert told
    listed, found = rows(name, "Cut list"), set()
    for row in told:  # once for each sled that cuts any of its rings
        number = int(re.search(r"lot (\d+)$", str(row.value))[1])
        found.add(number)
        size = str(row.value).split(" x ")[-1].split(",")[0]
        assert f" x {size}" in listed[f"lot {number}"]
        assert listed[next(key for key in listed if key.startswith(f"lot {number}, cut"))].startswith(
            f"{size},"
        )
        assert str(row.value).startswith(f"{lots[number].count} of {lots[number].species}, ")
    assert found == set(lots)
