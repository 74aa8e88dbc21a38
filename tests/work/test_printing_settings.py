"""What an STL cannot say stands beside each printed part, and adds up to what its step says."""

from __future__ import annotations

import pytest

from jigs.parts.families import jig_of
from jigs.render.book.gather import book_of
from jigs.render.tables_csv import csv_tables
from tests.work.test_every_work import work_of


@pytest.mark.parametrize("name", ["garland", "tumbler"])
def test_the_table_has_every_printed_part_with_hours_and_plastic_of_a_piece(name: str) -> None:
    work = work_of(name)
    (table,) = (table for table in work.tables if table.id == "prints")
    printed = [entry for entry in work.rack if entry.process == "print"]
    assert [row[0] for row in table.rows] == [f"{entry.code} {entry.name}" for entry in printed]
    for entry, (_, pieces, hours, grams, layer, how) in zip(printed, table.rows, strict=True):
        assert (pieces * hours, pieces * grams) == pytest.approx((entry.hours, entry.grams))
        assert layer == 0.2
        assert how.startswith("solid") == jig_of(entry.name).solid
        assert "no supports" in how


def test_the_csv_names_its_units() -> None:
    head, first, *_ = csv_tables(work_of("garland"))["prints.csv"].splitlines()
    assert head == "part,pieces,hours_h,plastic_g,layer_mm,how"
    assert first.startswith("CO coupon,2,")


@pytest.mark.parametrize("name", ["garland", "tumbler"])
def test_the_printing_steps_say_how_long_each_takes(name: str) -> None:
    work = work_of(name)
    steps = [
        step for chapter in book_of(work, ()).chapters if chapter.id == "printing" for step in chapter.steps
    ]
    assert steps
    for step in steps:
        for jig in step.jigs:
            assert any(" of plastic" in note and note.startswith("About ") for note in jig.notes), jig.name
