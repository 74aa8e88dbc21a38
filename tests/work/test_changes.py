"""What a changed job does to the work: found by id and value, whatever the words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from jigs.words.quantity import Kind, Quantity
from jigs.work.changes import changes, record
from jigs.work.model import Operation, Work
from tests.jigs.wood.whole_jobs import ALL
from tests.work.works import work_of

BEFORE = work_of("garland")


def with_operations(*operations: Operation) -> Work:
    return replace(BEFORE, operations=operations)


def step(id: str, rings: tuple[int, ...], **settings: float) -> Operation:
    told = tuple(Quantity(name, name, value) for name, value in settings.items())
    return Operation(id, "Do it.", "bench", rings=rings, settings=told)


def compared(old: Work, new: Work) -> list[tuple[str, str, object, object]]:
    found = changes(record(old), new).settings
    return [
        (one.operation, one.setting, one.before and one.before.value, one.after and one.after.value)
        for one in found
    ]


@pytest.mark.parametrize("name", ALL)
def test_other_words_change_nothing(name: str) -> None:
    """Every sentence, label, title and note is another one."""
    work = work_of(name)
    reworded = replace(
        work,
        title="x",
        operations=tuple(_reworded(one) for one in work.operations),
        tables=tuple(
            replace(
                table,
                title="x",
                columns=tuple(replace(column, label="x") for column in table.columns),
                rows=tuple(
                    tuple(
                        "x" if column.kind == "text" and column.id != "species" else cell
                        for cell, column in zip(row, table.columns, strict=True)
                    )
                    for row in table.rows
                ),
            )
            for table in work.tables
        ),
    )
    found = changes(record(work), reworded)
    assert not found.changed
    assert found.boards == "as before"


def _reworded(one: Operation) -> Operation:
    told = tuple(replace(setting, label="x") for setting in one.settings)
    return replace(one, does="x", how=("x",), trial="x", checks=(), settings=told, makes=(0, "x"))


def test_settings_of_the_same_rings_are_compared_wherever_their_step_stands_now() -> None:
    old = with_operations(step("a.cut", (1, 2), stop=10.0), step("a.cut-2", (3,), stop=12.0))
    new = with_operations(step("a.cut", (3,), stop=12.0), step("a.cut-2", (1, 2), stop=11.0))
    assert compared(old, new) == [("a.cut-2", "stop", 10.0, 11.0)]


def test_settings_of_other_rings_are_compared_in_their_order_and_what_is_over_is_new_or_gone() -> None:
    old = with_operations(step("a.cut", (1, 2), stop=10.0), step("a.cut-2", (3, 4), stop=12.0))
    new = with_operations(step("a.cut", (1, 2, 3), stop=10.5))
    assert compared(old, new) == [("a.cut", "stop", 10.0, 10.5), ("a.cut-2", "stop", 12.0, None)]
    assert compared(new, old) == [("a.cut", "stop", 10.5, 10.0), ("a.cut-2", "stop", None, 12.0)]


def test_a_setting_that_has_gone_from_one_step_to_another_of_its_kind_has_not_changed() -> None:
    old = with_operations(step("a.cut", (1, 2), one=10.0, two=8.0), step("a.cut-2", (3,), three=12.0))
    new = with_operations(step("a.cut", (1, 2), one=10.0), step("a.cut-2", (3,), three=12.0, two=8.0))
    assert compared(old, new) == []
    assert compared(old, with_operations(step("a.cut", (1, 2), one=10.0, two=8.5))) == [
        ("a.cut", "two", 8.0, 8.5),
        ("a.cut-2", "three", 12.0, None),
    ]


def test_a_difference_that_nobody_can_set_is_none() -> None:
    old, new = (with_operations(step("a.cut", (1,), stop=stop)) for stop in (10.0, 10.004))
    assert compared(old, new) == []
    assert compared(old, with_operations(step("a.cut", (1,), stop=10.01))) != []


@pytest.mark.parametrize(
    ("kind", "before", "same", "other"),
    [
        ("angle", 0.1, 0.100_009, 0.100_02),  # radians; plates carry a thousandth of a degree
        ("minutes", 100.0, 95.5, 94.0),
        ("text", "left", "left", "right"),
        ("count", 4, 4, 5),
    ],
)
def test_each_kind_of_setting_has_its_own_least_difference(
    kind: Kind, before: float | str, same: float | str, other: float | str
) -> None:
    def work(value: float | str) -> Work:
        told = (Quantity("one", "one", value, kind),)
        return with_operations(Operation("a.cut", "Do it.", "bench", settings=told))

    assert compared(work(before), work(same)) == []
    assert compared(work(before), work(other)) == [("a.cut", "one", before, other)]


def test_a_set_without_a_record_is_not_compared() -> None:
    found = changes({}, BEFORE)
    assert not found.compared
    assert not found.changed


def test_a_lot_is_the_same_under_another_number() -> None:
    old = record(BEFORE)
    (own,) = old["cut_list"]
    gone = {**own, "width": own["width"] + 1}
    found = changes({**old, "cut_list": [gone, {**own, "lot": 2}]}, BEFORE)
    assert (found.lots, found.lots_of) == (0, (2, 1))
    assert found.changed


def test_lots_and_boards_are_told_apart() -> None:
    found = changes(record(BEFORE), work_of("two woods"))
    assert found.lots > 0
    assert found.boards == "others"
