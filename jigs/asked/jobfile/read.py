"""One file as far as it could be read, and findings placed in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, cast

from geometry.records import Record
from jigs.asked import toml_source
from jigs.asked.job import Place
from jigs.asked.jobfile.units import unit_questions
from jigs.asked.key import RANGE, FileKind, Form, Key, Value, Wrong
from jigs.asked.keys import KEYS, TABLES, keys_of
from jigs.asked.toml_source import Source
from jigs.asked.values import read_value
from jigs.words.findings import Finding, near_names
from jigs.words.lengths import Unit

ALL = {key.path: key for key in KEYS}


class Read(Record):
    """One file as far as it could be read."""

    file: str
    unit: Unit
    values: Mapping[str, Value]
    written: frozenset[str]  # also those whose value is wrong
    places: Mapping[str, Place]
    faults: tuple[Finding, ...]
    meant: frozenset[str] = frozenset()  # keys and tables that unknown ones look like
    questions: tuple[Finding, ...] = ()  # on what is sound, and looks as if something else was meant

    def fault(self, code: str, message: str, remedy: str, *keys: str) -> Finding:
        """A fault placed at the first of `keys` that was written."""
        place = next((self.places[key] for key in keys if key in self.places), None)
        return Finding(code, message, remedy, keys[0], self.file, place.line if place else 0)


def read_file(source: Source, kind: FileKind, form: Form | None = None) -> Read:
    """Read every key that can be read, and note what is wrong with the others.

    For an unknown key only keys of `form` are suggested.
    """
    keys = {key.path: key for key in keys_of(kind)}
    faults: list[Finding] = []
    entries = dict(_entries(source.data, {key.table for key in keys.values()}))
    raw_values = {path: raw for path, raw in entries.items() if path in keys}
    unknown = [path for path in entries if path not in keys]
    faults += [_unknown(source, path, keys, kind, form) for path in unknown]
    meant = frozenset(key for path in unknown for key in _meant(path, _candidates(path, keys, form)).keys)
    values: dict[str, Value] = {}
    unit = _unit(raw_values.get("unit", "mm"))
    for path, raw in raw_values.items():
        try:
            values[path] = read_value(keys[path], raw, unit or "mm")
        except Wrong as wrong:
            if unit or wrong.code != RANGE:  # sizes cannot be judged in an unknown unit
                place = source.lines.get(path, 0)
                faults.append(Finding(wrong.code, wrong.message, wrong.remedy, path, source.file, place))
    places = {path: Place(source.file, line) for path, line in source.lines.items()}
    sound = {path: raw for path, raw in raw_values.items() if path in values}
    questions = tuple(unit_questions(source, unit or "mm", sound, keys))
    return Read(
        source.file, unit or "mm", values, frozenset(raw_values), places, tuple(faults), meant, questions
    )


def _unit(raw: object) -> Unit | None:
    return cast(Unit, raw) if raw in ALL["unit"].choices else None


def _entries(data: Mapping[str, Any], tables: set[str]) -> Iterator[tuple[str, Any]]:
    """Keys of the file, those of these tables as table.name; any other table stays whole."""
    for name, value in data.items():
        if name in tables and isinstance(value, dict):
            yield from ((toml_source.dotted((name, inner)), raw) for inner, raw in value.items())
        else:
            yield toml_source.dotted((name,)), value


def _unknown(
    source: Source, path: str, keys: Mapping[str, Key], kind: FileKind, form: Form | None
) -> Finding:
    line = source.lines.get(path, 0)
    if path in TABLES and any(key.table == path for key in keys.values()):
        remedy = f"Write [{path}] once, above its keys"
        return Finding("wrong-type", "has to be a section", remedy, path, source.file, line)
    if path in ALL or path in TABLES:
        message = f"does not belong in a {kind} file"
        return Finding("misplaced-key", message, "Move it to the job file", path, source.file, line)
    remedy = _meant(path, _candidates(path, keys, form)).remedy
    return Finding("unknown-key", "is not a known key", remedy, path, source.file, line)


def _candidates(path: str, keys: Mapping[str, Key], form: Form | None) -> list[Key]:
    """What an unknown key may have been meant for."""
    table = path.rpartition(".")[0]
    return [key for key in keys.values() if key.table == table or _may_stand(key, form)]


def _may_stand(key: Key, form: Form | None) -> bool:
    return form is None or not key.table or TABLES[key.table].form in (None, form)


class _Meant(Record):
    """What an unknown key looks like, if anything, and what to tell of it."""

    remedy: str
    keys: tuple[str, ...] = ()


def _meant(path: str, keys: Sequence[Key]) -> _Meant:
    table, _, name = path.rpartition(".")
    here = [key.name for key in keys if key.table == table]
    tables = sorted({key.table for key in keys} - {""})
    elsewhere = [key for key in keys if key.name == name]
    if elsewhere:
        remedy = "It belongs " + " or ".join(_where(key) for key in elsewhere)
        return _Meant(remedy, tuple(key.path for key in elsewhere))
    near = near_names(name.lower(), here if table else here + tables)
    if near:
        sure = near_names(name.lower(), near, cutoff=0.8)
        first = name.lower().partition("_")[0]  # spacer of spacer_thickness
        own = near if sure else dict.fromkeys([*(key for key in here if key == first), *near])
        meant = tuple(f"{table}.{key}" if table else key for key in own)
        return _Meant(f"Did you mean {' or '.join(meant)}?", meant)
    far = near_names(name.lower(), [key.name for key in keys], cutoff=0.75)
    if far:
        paths = tuple(key.path for key in keys if key.name == far[0])
        return _Meant("Did you mean " + " or ".join(paths) + "?", paths)
    return _Meant(f"Leave it out; known here: {', '.join(here if table else here + tables)}")


def _where(key: Key) -> str:
    return f"in [{key.table}]" if key.table else "at the top, above the first section"
