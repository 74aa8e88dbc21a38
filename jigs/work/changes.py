"""What a changed job does to the work, found by ids and values: settings, the cut list, the boards.

A set's manifest keeps a record of the work that it was made for; no words are compared, so that other words change
nothing.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Literal, cast

from geometry.records import Record, replace
from jigs.words.quantity import Kind, Quantity
from jigs.work.model import Cell, Operation, Table, Work

Wood = Literal["as before", "others", "sawn otherwise", "not compared"]
FINE: Mapping[Kind, float] = {"length": 0.005, "rule": 0.005, "calliper": 0.005, "angle": 1e-5}
ESTIMATED: frozenset[Kind] = frozenset(
    ("minutes", "hours", "weight", "money")
)  # within a twentieth is the same
_NTH = re.compile(r"-\d+$")  # what tells operations of one kind apart
_BOARD = (
    "count",
    "thickness",
    "width",
    "length",
    "crosscut",
    "whole",
)  # columns of the stock that say which board


class SettingChange(Record):
    """One thing that is set otherwise; `before` is None where it is new, `after` where it is gone."""

    operation: str  # id
    setting: str  # id in it
    before: Quantity | None
    after: Quantity | None


class WorkChanges(Record):
    """Nothing where there is no old set."""

    settings: tuple[SettingChange, ...] = ()
    lots: int = 0  # lines of the cut list that are new
    lots_of: tuple[int, int] = (0, 0)  # lines before and now
    boards: Wood = "as before"
    compared: bool = True  # the old set has a record

    @property
    def changed(self) -> bool:
        """Whether anything is done otherwise."""
        return bool(self.settings or self.lots or self.lots_of[0] != self.lots_of[1]) or self.boards in (
            "others",
            "sawn otherwise",
        )


def record(work: Work) -> dict[str, Any]:
    """What a manifest keeps of the work."""
    return {
        "operations": [_kept(one) for one in work.operations if one.settings],
        "cut_list": [row for row in _rows(work, "cut-list") if "lot" in row],  # waste blocks are settings
        "stock": _rows(work, "stock"),
    }


def changes(old: Mapping[str, Any], work: Work) -> WorkChanges:
    """What differs from the work of which an old manifest keeps a record; "not compared" where it keeps none."""
    if not old:
        return WorkChanges(boards="not compared", compared=False)
    new = record(work)
    was, now = (Counter(map(_unnumbered, of["cut_list"])) for of in (old, new))
    return WorkChanges(
        settings=tuple(_met(list(_settings(old["operations"], new["operations"])))),
        lots=(now - was).total(),
        lots_of=(was.total(), now.total()),
        boards=_boards(old["stock"], new["stock"]),
    )


def _kept(one: Operation) -> dict[str, Any]:
    return {
        "id": one.id,
        "rings": list(one.rings),
        "settings": {
            s.id: {"label": s.label, "value": _rounded(s.value), "kind": s.kind} for s in one.settings
        },
    }


def _rounded(value: float | int | str) -> float | int | str:
    return round(value, 6) if isinstance(value, float) else value


def _rows(work: Work, table: str) -> list[dict[str, Any]]:
    """A table's numbers and its woods, none of its words."""
    return [row for one in work.tables if one.id == table for row in _numbers(one)]


def _numbers(table: Table) -> Iterator[dict[str, Any]]:
    kept = [k for k, column in enumerate(table.columns) if column.kind != "text" or column.id == "species"]
    for row in table.rows:
        yield {table.columns[k].id: _plain(row[k]) for k in kept if row[k] is not None}


def _plain(cell: Cell) -> object:
    if isinstance(cell, tuple):
        return [round(one, 3) for one in cell]
    return round(cell, 3) if isinstance(cell, float) else cell


def _unnumbered(lot: Mapping[str, Any]) -> str:
    """A lot's number moves up where others before it are gone."""
    return _key({name: cell for name, cell in lot.items() if name != "lot"})


def _key(row: Mapping[str, Any], *names: str) -> str:
    return repr([(name, row.get(name)) for name in names or sorted(row)])


def _boards(old: Sequence[Mapping[str, Any]], new: Sequence[Mapping[str, Any]]) -> Wood:
    """Boards may do as they are and yet be sawn otherwise."""
    if Counter(map(_key, old)) == Counter(map(_key, new)):
        return "as before"
    taken = [Counter(_key(row, "species", *_BOARD) for row in of if "crosscut" in row) for of in (old, new)]
    return "sawn otherwise" if taken[0] == taken[1] else "others"


def _settings(old: Sequence[Mapping[str, Any]], new: Sequence[Mapping[str, Any]]) -> Iterator[SettingChange]:
    """In the order of the new work; then what is no longer done."""
    pairs = dict(_paired(old, new))
    for number, now in enumerate(new):
        yield from _of(pairs.get(number), now)
    met = {was["id"] for was in pairs.values()}
    for was in old:
        if was["id"] not in met:
            yield from _of(was, None)


def _met(found: list[SettingChange]) -> Iterator[SettingChange]:
    """What is new in an operation and gone from another of its kind has only changed places, or its value too."""
    gone = [one for one in found if one.after is None]
    for one in found:
        if one.after is not None and one.before is None:
            was = next((old for old in gone if _place(old) == _place(one)), None)
            if was is not None:
                gone.remove(was)
                one = replace(one, before=was.before)
        if one.after is not None and not _same(one.before, one.after):
            yield one
    yield from gone


def _place(one: SettingChange) -> tuple[str, str]:
    return _NTH.sub("", one.operation), one.setting


def _paired(
    old: Sequence[Mapping[str, Any]], new: Sequence[Mapping[str, Any]]
) -> Iterator[tuple[int, Mapping[str, Any]]]:
    """Operations of one kind: those of the same rings, then the others in their order."""
    left = list(old)
    waiting = []
    for number, now in enumerate(new):
        same = next((was for was in left if _kind(was) == _kind(now) and was["rings"] == now["rings"]), None)
        if same is None:
            waiting.append(number)
        else:
            left.remove(same)
            yield number, same
    for number in waiting:
        other = next((was for was in left if _kind(was) == _kind(new[number])), None)
        if other is not None:
            left.remove(other)
            yield number, other


def _kind(one: Mapping[str, Any]) -> str:
    return _NTH.sub("", one["id"])


def _of(was: Mapping[str, Any] | None, now: Mapping[str, Any] | None) -> Iterator[SettingChange]:
    before, after = (one["settings"] if one else {} for one in (was, now))
    operation = cast("Mapping[str, Any]", now or was)["id"]
    for id in dict.fromkeys([*after, *before]):
        a, b = _quantity(id, before.get(id)), _quantity(id, after.get(id))
        if not _same(a, b):
            yield SettingChange(operation, id, a, b)


def _quantity(id: str, kept: Mapping[str, Any] | None) -> Quantity | None:
    return Quantity(id, kept["label"], kept["value"], kept["kind"]) if kept else None


def _same(a: Quantity | None, b: Quantity | None) -> bool:
    if a is None or b is None:
        return a is b
    if isinstance(a.value, str) or isinstance(b.value, str):
        return a.value == b.value
    about = 0.05 * abs(b.value) if b.kind in ESTIMATED else 0.0
    return abs(a.value - b.value) <= max(about, FINE.get(b.kind, 1e-6))
