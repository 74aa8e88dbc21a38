"""The readings file beside a job, written box by box: its comments, its order and all else in it stay."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from jigs.asked import toml_source
from jigs.asked.change import toml_value
from jigs.asked.edited import BadEdit
from jigs.asked.readings.read import NOT_READ, readings_of
from jigs.asked.readings.readings import Entry, Least
from jigs.asked.readings.sound import unsound
from jigs.asked.toml_source import dotted, read_ordinary
from jigs.files.swap_in import swap_in
from jigs.words.findings import refuse
from jigs.words.lengths import Unit

READING = "reading"  # in a section of its own, with an accuracy beside it


@dataclass(frozen=True)
class Box:
    """Where a reading is written down: its operation, its id in that, how many there are, the least each may be."""

    step: str
    id: str
    count: int
    least: Least = "any"


@dataclass
class Notebook:
    """The readings file of a job, and the boxes that its work has, as they were known last."""

    file: Path
    boxes: tuple[Box, ...] = ()
    blank: str = ""
    stated: Mapping[str, list[str]] = field(default_factory=dict)

    def take(self, steps: Mapping[str, Any]) -> None:
        """Take over the boxes of a work, as the page shows it."""
        self.blank = steps["blank"]
        every = [step for chapter in steps["chapters"] for step in chapter["steps"]]
        self.boxes = tuple(
            Box(one["id"], box["id"], box["count"], box["least"]) for one in every for box in one["readings"]
        )

    def look(self) -> None:
        """See what the file has now."""
        try:
            self.stated = stated(readings_text(self.file) or "")
        except (OSError, UnicodeDecodeError):
            self.stated = {}

    def write(self, id: object, texts: object, unit: Unit) -> str | None:
        """Write what was read in the boxes of an id, into the file as it is now; return its text before.

        Raises BadEdit where there is no such box or the file cannot be changed so, Refused where a reading is none,
        OSError or UnicodeDecodeError where the file cannot be read or written.
        """
        box = next((one for one in self.boxes if f"{one.step}.{one.id}" == id), None)
        if box is None or not isinstance(texts, list) or not all(isinstance(one, str) for one in texts):
            raise BadEdit("There is no such box.")
        before = readings_text(self.file)
        fresh = noted(self.blank if before is None else before, box, texts)
        entry = readings_of(toml_source.parse(fresh, str(self.file)), unit).entries.get(str(id), Entry())
        refuse(unsound(str(id), entry, box.least, str(self.file)))
        swap_in(self.file, fresh.encode())
        return before

    def put_back(self, before: str | None) -> None:
        """Undo a `write`."""
        if before is None:
            self.file.unlink()
        else:
            swap_in(self.file, before.encode())


def readings_text(file: Path) -> str | None:
    """What the file has; None where there is none. Raises OSError or UnicodeDecodeError where it cannot be read."""
    return read_ordinary(file).decode("utf-8-sig") if file.exists() else None


def stated(text: str) -> Mapping[str, list[str]]:
    """What stands in the boxes, by "stage.operation.reading". Nothing of a text that is no TOML."""
    try:
        return dict(_leaves(tomllib.loads(text), ""))
    except (ValueError, RecursionError):
        return {}


def _leaves(data: Mapping[str, Any], above: str) -> Iterator[tuple[str, list[str]]]:
    for name, value in data.items():
        if isinstance(value, dict) and READING not in value:
            yield from _leaves(value, f"{above}{name}.")
        elif above:
            held = value[READING] if isinstance(value, dict) else value
            yield f"{above}{name}", [str(one) for one in (held if isinstance(held, list) else [held])]


def noted(text: str, box: Box, texts: Sequence[str]) -> str:
    """The text with what was read; a box with nothing is left out. Raises BadEdit where it cannot be changed so."""
    value = _value(box, texts)
    try:
        fresh = _noted(text, box, value)
        held = stated(fresh).get(f"{box.step}.{box.id}")
    except (TOMLKitError, ValueError, RecursionError, TypeError, AttributeError) as error:
        raise BadEdit("Put the readings file's text right first, by hand.") from error
    wanted = None if value is None else [str(one) for one in (value if isinstance(value, list) else [value])]
    if held != wanted:
        raise BadEdit(
            "The readings file has this where it cannot be changed from here: write it there by hand."
        )
    return fresh


def _noted(text: str, box: Box, value: Any) -> str:
    document = tomlkit.parse(text)
    held = _holding(document, f"{box.step}.{box.id}")
    if held is not None:
        table, name = held
        if value is None:
            table.pop(name)
        elif isinstance(table[name], dict):
            table[name][READING] = value
        else:
            table[name] = value
        return document.as_string()
    if value is None:
        return text
    line = f"{dotted((box.id,))} = {toml_value(value)}"
    head = re.search(rf"^\[{re.escape(box.step)}\][^\n]*\n", text, re.MULTILINE)
    if head is None:
        return f"{text.rstrip()}\n\n[{box.step}]\n{line}\n".lstrip()
    return _below(text, head.end(), line, re.escape(dotted((box.id,))))


def _below(text: str, begin: int, line: str, key: str) -> str:
    """In its section: in place of the blank line for it, if that is there."""
    section = re.match(r"(?:(?!\[)[^\n]*\n?)*", text[begin:])
    end = begin + (section.end() if section else 0)
    blank = re.search(rf"^# {key} =(?:[^#\n]*)(#[^\n]*)?$", text[begin:end], re.MULTILINE)
    if blank is None:
        return f"{text[:begin]}{line}\n{text[begin:]}"
    told = f"  {blank[1]}" if blank[1] else ""
    return f"{text[: begin + blank.start()]}{line}{told}{text[begin + blank.end() :]}"


def _holding(table: Any, id: str) -> tuple[Any, str] | None:
    """The section that has an id, and its name there; names have dots themselves."""
    for name in table:
        if name == id:
            return table, name
        if id.startswith(f"{name}.") and hasattr(table[name], "keys"):
            found = _holding(table[name], id[len(name) + 1 :])
            if found is not None:
                return found
    return None


def _value(box: Box, texts: Sequence[str]) -> Any:
    """None for nothing; a list where there are several boxes."""
    if len(texts) != box.count:
        raise BadEdit("There are not so many boxes.")
    read = [_read(text.strip()) for text in texts]
    if all(one == NOT_READ for one in read):
        return None
    return read[0] if box.count == 1 else read


def _read(text: str) -> int | float | str:
    """A number, or what the reader makes of the text."""
    if "\n" in text:
        return text
    try:
        value = tomllib.loads(f"value = {text}")["value"]
    except (ValueError, RecursionError):
        return text
    return value if isinstance(value, int | float) and not isinstance(value, bool) else text
