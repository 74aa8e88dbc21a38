"""Listing, tables and JSON of every job's work: nothing is lost, nothing is too wide, numbers are mm."""

from __future__ import annotations

import csv
import io
import json
import re
import textwrap
from itertools import pairwise
from math import degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.render.lines import lines, shown, unbroken
from jigs.render.listing import WIDTH, listing_text, wrapped
from jigs.render.tables_csv import csv_tables
from jigs.render.work_json import work_json
from jigs.words.lengths import Bound
from jigs.words.quantity import Quantity, ruled
from tests.jigs.wood.whole_jobs import ALL
from tests.work.works import work_of

each = pytest.mark.parametrize("name", ALL)


@each
def test_no_line_of_the_listing_is_wider_than_a_page(name: str) -> None:
    assert not [line for line in listing_text(work_of(name)).splitlines() if len(line) > WIDTH]


def steps_of(name: str) -> list[str]:
    """What the listing tells of each step, on one line."""
    work = work_of(name)
    text = " ".join(listing_text(work).split("\n\n")[-1].split())
    heads = [
        re.search(rf"(?<!\S){k}!? {re.escape(one.does)}", text) for k, one in enumerate(work.operations, 1)
    ]
    starts = [head.end() for head in heads if head]
    assert len(starts) == len(work.operations)
    assert starts == sorted(starts)
    return [text[a:b] for a, b in pairwise([*starts, len(text)])]


@each
def test_the_listing_tells_every_step_in_order_and_a_number_of_the_wood_once_in_its_stage(name: str) -> None:
    work, steps = work_of(name), steps_of(name)
    stages = {stage.id: "" for stage in work.stages}
    for operation, step in zip(work.operations, steps, strict=True):
        stages[operation.stage] += step
    told = {stage.id for stage in work.stages if stage.sort == "work"}
    for operation in work.operations:
        if operation.stage in told:
            for label, value in lines(operation.settings, work.unit):
                name = label.rpartition(": ")[2]
                apart = ":" if name[-1].isdigit() else ""  # "rings 2, 5: 19.0 mm"
                assert f"{name}{apart} {value}" in stages[operation.stage]


@each
def test_a_set_up_that_comes_again_in_another_stage_is_told_again(name: str) -> None:
    work, steps = work_of(name), steps_of(name)
    met = {stage.id for stage in work.stages if stage.sort != "work"}
    for operation, step in zip(work.operations, steps, strict=True):
        if operation.stage not in met:
            for _, value in lines(operation.settings, work.unit):
                assert value in step
        met.add(operation.stage)


@each
def test_the_listing_tells_every_caution_once_before_the_work_and_marks_the_step_that_meets_it(
    name: str,
) -> None:
    work = work_of(name)
    front = " ".join(listing_text(work).partition(f"\n{work.stages[0].title.upper()}")[0].split())
    marked = set()
    for caution in work.cautions:
        assert front.count(caution.text) >= 1
        first = next((o for o in work.operations if caution.id in o.cautions), None)
        if first is not None:
            assert f" {work.number(first.id)}! {caution.text}" in front
            marked.add(first.id)
    text = " ".join(listing_text(work).split("\n\n")[-1].split())
    for number, operation in enumerate(work.operations, 1):
        assert (f"{number}! {operation.does}" in text) is (operation.id in marked)


def test_the_torus_demo_takes_250_lines_at_most() -> None:
    assert len(listing_text(work_of("garland")).splitlines()) <= 250


@each
def test_the_settings_table_has_every_setting_by_its_ids_and_in_mm(name: str) -> None:
    rows = list(csv.DictReader(io.StringIO(csv_tables(work_of(name))["settings.csv"])))
    found = {(row["id"], row["setting"]): row for row in rows}
    for operation in work_of(name).operations:
        for setting in (*operation.settings, *operation.known):
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


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("12.062 in (12 1/16)", ["12.062 in (12 1/16)"]),
        ("205.00° to 263.62°", ["205.00°", "to 263.62°"]),
        ("1 × 0.750 (3/4) × 6.000 in", ["1", "× 0.750 (3/4)", "× 6.000 in"]),
        ("848.0 mm, 465.0 mm", ["848.0 mm,", "465.0 mm"]),
        ("4 x 1/4 in x 2 1/2 in", ["4", "x 1/4 in", "x 2 1/2 in"]),
        ("left and right", ["left", "and", "right"]),
    ],
)
def test_a_number_keeps_to_its_line_and_several_break_between_them(text: str, pieces: list[str]) -> None:
    assert [piece.replace("\u00a0", " ") for piece in unbroken(text).split(" ")] == pieces


@pytest.mark.parametrize(("bound", "told"), [("least", "89.7 mm"), ("most", "89.6 mm"), ("", "89.6 mm")])
def test_a_limit_in_millimetres_is_not_rounded_past_itself(bound: Bound, told: str) -> None:
    assert shown(ruled("limit", "", 89.61, bound), "mm") == told
    assert shown(ruled("limit", "", 45.3, bound), "mm") == "45.3 mm"  # 452.99... tenths in binary


@given(st.lists(st.integers(1, 80), min_size=1), st.lists(st.integers(1, 2)), st.sampled_from(["", "  "]))
def test_a_listing_is_broken_where_the_standard_library_would(
    lengths: list[int], spaces: list[int], indent: str
) -> None:
    """Words shorter than a line, some of them two spaces apart."""
    gaps = [" " * space for space in spaces] + [" "] * len(lengths)
    text = "x" * lengths[0] + "".join(gap + "x" * n for gap, n in zip(gaps, lengths[1:], strict=False))
    wanted = textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent="    ")
    assert wrapped(text, indent, "    ") == wanted
