"""How long a job takes: sums over its steps, days by the clock."""

from __future__ import annotations

from typing import Any

import pytest

from geometry.records import replace
from jigs.words.quantity import Quantity
from jigs.work.model import Operation, Work
from jigs.work.times import days
from tests.jigs.wood.whole_jobs import ALL
from tests.work.works import work_of

each = pytest.mark.parametrize("name", ALL)


def step(id: str, minutes: float = 0.0, hours: float = 0.0) -> Operation:
    return Operation(id, "Do it.", "bench", minutes=minutes, hours=hours)


def rows(work: Work) -> list[tuple[Any, ...]]:
    (table,) = [one for one in work.tables if one.id == "time"]
    return [tuple(cell or 0 for cell in row) for row in table.rows]


@each
def test_stages_add_up_to_the_whole_and_the_whole_to_its_steps(name: str) -> None:
    work = work_of(name)
    *stages, whole = rows(work)
    assert len(stages) == len(work.stages)
    for column in range(1, 5):
        assert sum(row[column] for row in stages) == pytest.approx(whole[column])
    assert whole[1] == len(work.operations)
    assert whole[2] == pytest.approx(sum(o.minutes for o in work.operations))
    assert whole[3] == pytest.approx(sum(o.hours for o in work.operations if o.place != "printer"))


@each
def test_the_printer_runs_as_long_as_its_parts_take(name: str) -> None:
    work = work_of(name)
    assert rows(work)[-1][4] == pytest.approx(sum(entry.hours or 0.0 for entry in work.rack))


@each
def test_the_front_page_has_the_totals_of_the_table(name: str) -> None:
    work = work_of(name)
    facts = {fact.id: fact.value for fact in work.facts}
    assert facts["work"] == pytest.approx(rows(work)[-1][2])
    assert facts.get("print", 0.0) == pytest.approx(rows(work)[-1][4])
    whole, dries = int(facts["days"]), int(facts["glue-days"])
    assert 0 < dries <= whole
    assert whole >= sum(o.minutes for o in work.operations) / 60 / 8


def test_a_days_work_is_one_day_and_a_minute_more_is_two() -> None:
    assert days([step("a.b", 480)]) == (1, 0)
    assert days([step("a.b", 481)]) == (2, 0)


def test_what_dries_overnight_costs_no_day() -> None:
    assert days([step("a.b", 470, 12), step("a.c", 400)]) == (2, 1)
    assert days([step("a.b", 60, 24), step("a.c", 60)]) == (2, 2)
    assert days([step("a.b", 60, 1), step("a.c", 60)]) == (1, 1)


def test_each_batch_needs_a_hand_once_the_one_before_is_out_of_its_clamps() -> None:
    """Of 14 minutes and an hour seven are begun by the eighth hour; the clamps of the seventh stay on after it."""

    def glued(count: int, dries: float = 0.0) -> Operation:
        known = (Quantity("batches", "Batches", count, "count"),)
        settings = (Quantity("dry-time", "Dry", dries, "hours"),) if dries else ()
        one = step("rings.halves", 14 * count, count + dries)
        return replace(one, known=known, settings=settings)

    assert days([glued(6)]) == (1, 1)
    assert days([glued(7), step("a.b", 1)]) == (2, 1)
    assert days([glued(36), step("a.b", 1)])[0] == 6
    assert days([glued(6, dries=16), step("a.b", 1)])[0] == 2


def test_the_printer_runs_beside_the_work() -> None:
    prints = Operation("printing.a", "Print.", "printer", minutes=10, hours=60)
    assert days([prints, step("boards.a", 10)]) == (1, 0)


def test_jigs_dry_beside_each_other_and_the_wood_waits() -> None:
    both = [step(f"{stage}.{n}", 10, 24) for stage in ("building",) for n in range(3)]
    assert days([*both, step("boards.a", 10)], {"building"})[0] == 2
    assert days([step(f"rings.{n}", 10, 24) for n in range(3)])[0] == 4
