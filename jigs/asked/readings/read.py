"""From a readings file to readings: every fault of the file at once, with its line and key."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import inf
from pathlib import Path
from typing import Any, cast

from jigs.asked import toml_source
from jigs.asked.readings.readings import ACCURACY, SECTION, Entry, Instrument, Readings
from jigs.asked.toml_source import Source, readings_file
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import BadLength, Unit, number, parse_length, shown

NOT_READ = ""  # in a list: a box left out
MOST = 1000  # values under one key
LONGEST = 3000.0  # mm


def load_readings(job: Path, unit: Unit) -> Readings:
    """The readings beside a job file, none where there is no such file. Raises Refused."""
    file = readings_file(job)
    if not file.exists():
        return Readings()
    return readings_of(toml_source.read(file), unit)


def readings_of(source: Source, unit: Unit) -> Readings:
    """Readings of a file's values, plain numbers in `unit` where it states none of its own. Raises Refused."""
    reader = _Reader(source, unit)
    readings = reader.readings()
    if reader.faults:
        raise Refused(sorted(reader.faults, key=lambda fault: fault.line))
    return readings


COUNT = "rings"  # no size: a count has a message of its own


class _Reader:
    def __init__(self, source: Source, unit: Unit) -> None:
        self.source, self.faults = source, list[Finding]()
        self.unit = self._unit(unit)

    def readings(self) -> Readings:
        data = {name: value for name, value in self.source.data.items() if name not in ("unit", "accuracy")}
        entries = {".".join(path): self._entry(path, raw) for path, raw in _leaves(data, ())}
        self._glued(entries)
        return Readings(self.source.file, entries, self._accuracies())

    def _glued(self, entries: Mapping[str, Entry]) -> None:
        """Sizes of rings that stay, on which the job is planned before its book has any box."""
        for id, entry in entries.items():
            section, _, name = id.partition(".")
            numbers = [number for number in entry.numbers if number is not None]
            read = [one for one in (*entry.lengths, *numbers) if one is not None]
            if section != SECTION or name == COUNT or not read:
                continue
            most = 360.0 if name == "together" else inf
            if min(read) <= 0 or max(numbers, default=0.0) >= most:
                remedy = 'Write what you measured; "" where there is none'
                self._fault((section, name), "out-of-range", "is no size of a glued ring", remedy)

    def _unit(self, unit: Unit) -> Unit:
        stated = self.source.data.get("unit", unit)
        if stated not in ("mm", "in"):
            self._fault(("unit",), "not-a-choice", f"{shown(stated)} is no unit", 'Give "mm" or "in"')
            return unit
        return cast(Unit, stated)

    def _accuracies(self) -> Mapping[Instrument, float]:
        stated = self.source.data.get("accuracy", {})
        if not isinstance(stated, dict):
            self._fault(("accuracy",), "wrong-type", "has to be a section", "Write [accuracy] above its keys")
            return ACCURACY
        found = dict(ACCURACY)
        for name, raw in stated.items():
            path = ("accuracy", name)
            if name not in ACCURACY or name == "eye":
                known = ", ".join(one for one in ACCURACY if one != "eye")
                self._fault(path, "unknown-key", "is no instrument known here", f"Known: {known}")
                continue
            value = self._number(path, raw) if name == "protractor" else self._length(path, raw)
            if value is not None and self._positive(path, value):
                found[cast(Instrument, name)] = value
        return found

    def _entry(self, path: tuple[str, ...], raw: Any) -> Entry:
        line = self.source.lines.get(toml_source.dotted(path), 0)
        if not isinstance(raw, dict):
            return self._read(path, raw, line)
        if strangers := sorted(raw.keys() - {"reading", "accuracy"}):
            self._fault(path, "unknown-key", f"{strangers[0]} is not known here", "Give reading and accuracy")
        accuracy = raw.get("accuracy")
        length = None if accuracy is None else self._length((*path, "accuracy"), accuracy)
        if length is not None and not self._positive((*path, "accuracy"), length):
            length = None
        entry = self._read(path, raw["reading"], line)
        plain = _plain(accuracy)
        return Entry(entry.lengths, entry.numbers, entry.text, length, plain, line)

    def _read(self, path: tuple[str, ...], raw: Any, line: int) -> Entry:
        if isinstance(raw, str) and raw.strip().isalpha():
            return Entry(text=raw.strip(), line=line)
        items = raw if isinstance(raw, list) else [raw]
        if len(items) > MOST:
            self._fault(path, "too-many", f"{len(items)} values are too many", f"Give at most {MOST}")
            return Entry(line=line)
        lengths = tuple(None if item == NOT_READ else self._length(path, item) for item in items)
        numbers = tuple(_plain(item) for item in items)
        return Entry(lengths, numbers, line=line)

    def _length(self, path: tuple[str, ...], raw: Any) -> float | None:
        try:
            length = parse_length(raw, self.unit)
        except BadLength as bad:
            self._fault(path, "bad-length", str(bad), bad.remedy)
            return None
        if abs(length) > LONGEST:
            self._fault(
                path, "out-of-range", f"{shown(raw)} is longer than any work", "Write what you measured"
            )
            return None
        return length

    def _number(self, path: tuple[str, ...], raw: Any) -> float | None:
        try:
            return number(raw)
        except BadLength:
            self._fault(path, "wrong-type", f"{shown(raw)} is not a number", "Give a number of degrees")
            return None

    def _positive(self, path: tuple[str, ...], value: float) -> bool:
        if value <= 0:
            self._fault(
                path, "out-of-range", "an accuracy is more than nothing", "Give how far it may be out"
            )
        return value > 0

    def _fault(self, path: tuple[str, ...], code: str, message: str, remedy: str) -> None:
        key = toml_source.dotted(path)
        line = self.source.lines.get(key) or self.source.lines.get(toml_source.dotted(path[:-1]), 0)
        self.faults.append(Finding(code, message, remedy, key, self.source.file, line))


def _plain(item: object) -> float | None:
    """A number as it was written; None of what is none, or has hundreds of digits."""
    try:
        return float(item) if isinstance(item, int | float) else None
    except OverflowError:
        return None


def _leaves(data: Mapping[str, Any], above: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Values with their path; a section with a `reading` is one."""
    for name, value in data.items():
        if isinstance(value, dict) and "reading" not in value:
            yield from _leaves(value, (*above, name))
        else:
            yield (*above, name), value
