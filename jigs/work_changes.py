"""What a changed job does to the work: settings, old -> new, and whether cut list and boards are others."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from jigs.job import Unit
from jigs.lengths import show_length

Row: TypeAlias = Mapping[str, str]
CUT_LIST, SETTINGS, STOCK = (f"tables/{name}.csv" for name in ("cut-list", "settings", "stock"))
_BOARD = ("species", "count", "thickness_mm", "width_mm", "length_mm", "note")
_SAME = "as before"
_NOT_COMPARED = "not compared, for the old table is gone or was changed by hand"


@dataclass(frozen=True)
class WorkChanges:
    """In words; nothing where there is no old set."""

    settings: tuple[str, ...] = ()  # each that has changed
    summary: tuple[str, ...] = ()  # a line of the settings, of the cut list, of the boards
    changed: bool = False


def work_changes(
    old: Callable[[str], str | None], new: Callable[[str], str | None], unit: Unit
) -> WorkChanges:
    """Hold an old set's tables against the new ones; both give a table's text by its file, or None for none kept."""
    settings: tuple[str, ...] = ()
    told: dict[str, str] = {}
    for what, file in (("settings", SETTINGS), ("cut list", CUT_LIST), ("boards", STOCK)):
        was, now = old(file), new(file)
        if was is None or now is None:
            told[what] = _NOT_COMPARED
        elif file == SETTINGS:
            settings = tuple(_settings(_rows(was), _rows(now), unit))
            told[what] = f"{len(settings)} changed" if settings else _SAME
        else:
            told[what] = (_cut_list if file == CUT_LIST else _boards)(_rows(was), _rows(now))
    changed = any(said not in (_SAME, _NOT_COMPARED) for said in told.values())
    return WorkChanges(settings, tuple(f"{what}: {said}" for what, said in told.items()), changed)


def _rows(text: str) -> list[Row]:
    """Without the inches, which only jobs in inches have beside the millimetres."""
    return [
        {name: cell for name, cell in row.items() if name and not name.endswith("_in")}
        for row in csv.DictReader(io.StringIO(text))
    ]


def _settings(old: Sequence[Row], new: Sequence[Row], unit: Unit) -> Iterator[str]:
    """In the order of the new work, each of those of one name in one kind of step; then what is no longer set."""
    kinds = dict.fromkeys(_kind(row) for row in (*new, *old) if row.get("setting"))
    pairs = [
        pair
        for kind in kinds
        for pair in _paired([r for r in old if _kind(r) == kind], [r for r in new if _kind(r) == kind])
    ]
    for was, now in sorted(pairs, key=lambda pair: new.index(pair[1]) if pair[1] else len(new)):
        told = _told(was, now, unit)
        if told:
            yield told


def _kind(row: Row) -> tuple[str, str]:
    return row.get("work", ""), row.get("setting", "")


def _paired(old: list[Row], new: Sequence[Row]) -> Iterator[tuple[Row | None, Row | None]]:
    """Those of the same rings, then the others in their order."""
    found: list[tuple[Row | None, Row]] = []
    for row in new:
        same = next((was for was in old if was.get("rings") == row.get("rings")), None)
        if same:
            old.remove(same)
        found.append((same, row))
    for was, row in found:
        yield was or (old.pop(0) if old else None), row
    yield from ((was, None) for was in old)


def _told(was: Row | None, now: Row | None, unit: Unit) -> str:
    """Nothing where one would set the same."""
    before, after = (_value(row, unit) if row else "" for row in (was, now))
    if before == after:
        return ""
    if now is None:
        return f"no longer: {(was or {}).get('setting')} {before}"
    return f"step {now.get('step')}, {now.get('setting')}: {before or 'new'} -> {after}"


def _value(row: Row, unit: Unit) -> str:
    """As a person sets it; tables keep lengths to 0.001 mm."""
    if row.get("value_mm"):
        return show_length(float(row["value_mm"]), unit)
    return f"{float(row['value_deg']):.3f}°" if row.get("value_deg") else row.get("value", "")


def _cut_list(old: Sequence[Row], new: Sequence[Row]) -> str:
    was, now = (Counter(_cells(row, *(row.keys() - {"step"})) for row in rows) for rows in (old, new))
    if was == now:
        return _SAME
    lots = f"{len(new)} {'lot' if len(new) == 1 else 'lots'}"
    before = f", once {len(old)}" if len(old) != len(new) else ""
    return f"changed in {(now - was).total()} of {lots}{before}; see {CUT_LIST}"


def _boards(old: Sequence[Row], new: Sequence[Row]) -> str:
    """Boards may do as they are and yet be sawn otherwise."""
    was, now = (Counter(_cells(row, *row) for row in rows) for rows in (old, new))
    if was == now:
        return _SAME
    taken = [
        Counter(_cells(row, *_BOARD) for row in rows if row.get("what") == "board") for rows in (old, new)
    ]
    return f"{'the same ones, sawn otherwise' if taken[0] == taken[1] else 'others'}; see {STOCK}"


def _cells(row: Row, *names: str) -> tuple[tuple[str, str], ...]:
    return tuple((name, row.get(name, "")) for name in sorted(names))
