"""What `jigs new` asks, and how the answers read."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from geometry.grouping import grouped
from geometry.records import Record
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import shown

if TYPE_CHECKING:
    from jigs.asked.key import Form
    from jigs.words.lengths import Unit

STATIONS = "profile.stations"
_LISTS = (
    "rings.heights",
    "rings.segments",
    "rings.species",
    "form.species",
)  # one for all rings, or one for each
_LENGTH = (
    r'((?:[0-9]+[ -]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+\.?[0-9]*|\.[0-9]+)\s*(?:mm|cm|inches|inch|in|"|″)?)'
)
_PAIR = re.compile(rf"\s*{_LENGTH}\s+{_LENGTH}\s*")


class Question(Record):
    """One question; it is also an option of the command."""

    option: str
    key: str
    text: str
    example: str
    inches: str = ""  # the example in an inch file, where it is another
    optional: bool = False  # common practice holds without an answer


_SHOP = (
    Question("blade-height", "saw.blade_height", "The most that your table saw's blade stands above its table",
             "80 mm", "3 1/8 in", optional=True),
    Question("sheet", "boards.sheet", "Thickness of the sheet for the jigs, measured", "12 mm", "15/32 in",
             optional=True),
)  # fmt: skip

QUESTIONS: Mapping[Form, tuple[Question, ...]] = {
    "torus": (
        Question("outer-diameter", "form.outer_diameter", "Outer diameter, finished", "250 mm", "10 in"),
        Question("tube-diameter", "form.tube_diameter", "Tube diameter, finished", "54 mm", "2 1/8 in"),
        Question("wedge-rings", "form.wedge_rings", "Wedge rings round the torus (even)", "18"),
        Question("segments", "form.segments", "Segments in each ring (even)", "10"),
        Question("wood", "form.species", "Species of wood", "maple", optional=True),
        *_SHOP,
    ),
    "vessel": (
        Question("stations", STATIONS, "Heights and diameters from the foot up",
                 "0 70, 40 110, 90 80", "0 2 3/4, 1 5/8 4 3/8, 3 1/2 3 1/8"),
        Question("wall", "wall.thickness", "Thickness of the wall", "6 mm", "1/4 in"),
        Question("ring-height", "rings.heights", "Height of the rings", "20 mm", "3/4 in"),
        Question("segments", "rings.segments", "Segments in each ring", "12"),
        Question("species", "rings.species", "Species of wood", "maple"),
        *_SHOP,
    ),
}  # fmt: skip


def options() -> dict[str, list[tuple[Form, Question]]]:
    """The questions of both forms by option; some options serve both."""
    asked = ((form, question) for form, questions in QUESTIONS.items() for question in questions)
    return grouped(asked, lambda of: of[1].option)


def example_of(question: Question, unit: Unit) -> str:
    """An answer that does, in a file of this unit."""
    return question.inches if unit == "in" and question.inches else question.example


def answer(question: Question, text: str) -> object:
    """Return the answer as the job file states it. Raises Refused where stations cannot be read."""
    parts = [part.strip() for part in re.split("[,;]", text.rstrip(" ,;"))]
    if question.key == STATIONS:
        return [_pair(part) for part in parts]
    if question.key in _LISTS and len(parts) > 1:
        return [plain(part) for part in parts]
    return plain(text)


def _pair(text: str) -> list[object]:
    """A height and a diameter; a fraction belongs to the whole number before it where that leaves two lengths."""
    match = _PAIR.fullmatch(text)
    if match is None:
        message = f"{shown(text)} is not a height and a diameter"
        remedy = 'Give pairs with commas between, such as "0 70, 40 110, 90 80" or "0 2 3/4, 1 5/8 4 3/8"'
        raise Refused([Finding("bad-stations", message, remedy, STATIONS)])
    return [plain(length.strip()) for length in match.groups()]


def plain(text: str) -> object:
    """A number where the answer is one, else the text, such as "12 5/8 in"."""
    kinds: tuple[Callable[[str], object], ...] = (int, float)
    for kind in kinds:
        try:
            return kind(text)
        except ValueError:
            continue
    return text
