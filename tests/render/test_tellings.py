"""Listing, tables and JSON of every job's work: nothing is lost, nothing is too wide, numbers are mm."""

from __future__ import annotations

import csv
import io
import json
from math import degrees

import pytest

from jigs.quantity import Quantity
from jigs.render.amounts import shown
from jigs.render.listing import WIDTH, listing_text
from jigs.render.tables_csv import csv_tables
from jigs.render.work_json import work_json
from tests.jigs.wood.whole_jobs import ALL
from tests.work.works import work_of

each = pytest.mark.parametrize("name", ALL)


@each
def test_no_line_of_the_listing_is_wider_than_a_page(name: str) -> None:
    assert not [line for line in listing_text(work_of(name)).splitlines() if len(line) > WIDTH]


@each
def test_the_listing_tells_every_step_with_every_setting_once(name: str) -> None:
    text = " ".join(listing_text(work_of(name)).split())
    for number, operation in enumerate(work_of(name).operations, 1):
        head = f" {number}. {operation.does}"
        assert text.count(head) == 1
        step = text.split(head)[1].split(f" {number + 1}. ")[0]
        for setting in operation.settings:
            assert f"{setting.label} {shown(setting, work_of(name).unit)}" in step


@each
def test_the_settings_table_has_every_setting_by_its_ids_and_in_mm(name: str) -> None:
    rows = list(csv.DictReader(io.StringIO(csv_tables(work_of(name))["settings.csv"])))
    found = {(row["id"], row["setting"]): row for row in rows}
    for operation in work_of(name).operations:
        for setting in operation.settings:
            row = found[operation.id, setting.id]
            if setting.kind in ("length", "rule", "calliper"):
                assert row["unit"] == "mm"
                assert float(row["value"]) == pytest.approx(setting.value, abs=5.1e-4)
            if setting.kind == "angle":
                assert float(row["value"]) == pytest.approx(degrees(float(setting.value)), abs=5.1e-5)


@each
def test_every_table_is_a_file_with_a_row_for_each_of_its_rows(name: str) -> None:
    texts = csv_tables(work_of(name))
    for table in work_of(name).tables:
        assert len(list(csv.reader(io.StringIO(texts[f"{table.id}.csv"])))) == len(table.rows) + 1
        assert all(len(row) == len(table.columns) for row in table.rows)


@each
def test_json_has_every_number_as_the_model_has_it(name: str) -> None:
    told = json.loads(json.dumps(work_json(work_of(name))))
    assert [one["id"] for one in told["operations"]] == [one.id for one in work_of(name).operations]
    for row, one in zip(told["operations"], work_of(name).operations, strict=True):
        assert [s["value"] for s in row.get("settings", [])] == [s.value for s in one.settings]
    assert "NaN" not in json.dumps(told)


@pytest.mark.parametrize(
    ("kind", "mm", "inches"),
    [
        ("calliper", "27.35 mm", "1.077 in"),
        ("length", "27.4 mm", "1.077 in"),
        ("rule", "27.4 mm", "1.077 in (1 5/64)"),
    ],
)
def test_a_length_is_as_fine_as_it_is_set(kind: str, mm: str, inches: str) -> None:
    length = Quantity("x", "x", 27.352, kind)  # type: ignore[arg-type]
    assert (shown(length, "mm"), shown(length, "in")) == (mm, inches)
