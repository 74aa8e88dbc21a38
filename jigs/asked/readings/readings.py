"""The readings of a job, as its file has them; how far the instruments are out where it does not say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from math import radians
from typing import Literal

from geometry.measuring.estimate import Estimate, mean_of
from geometry.records import Record

SECTION = "glued"  # of the file, of the turner's own word: no box of the book has it
Instrument = Literal["calliper", "feeler", "dial", "rule", "protractor", "eye"]
Least = Literal["any", "nothing", "more than nothing"]  # the least that a box may hold

# Each way, nearly always; mm, degrees for the protractor, nothing for what is looked at. Common practice, no source:
# what a careful hand repeats on wood, not what the maker prints on the tool.
ACCURACY: Mapping[Instrument, float] = {
    "calliper": 0.05,
    "feeler": 0.03,
    "dial": 0.02,
    "rule": 0.5,
    "protractor": 0.1,
    "eye": 0.0,
}


class Entry(Record):
    """What stands under one id; None where a box of several was left out."""

    lengths: tuple[float | None, ...] = ()  # as lengths, mm
    numbers: tuple[float | None, ...] = ()  # as they were written, where no unit was
    text: str = ""  # what is neither
    accuracy: float | None = None  # as a length, mm
    accuracy_number: float | None = None  # as it was written
    line: int = 0


class Readings(Record):
    """By "stage.operation.reading". Nothing where there is no file."""

    file: str = ""
    entries: Mapping[str, Entry] = field(default_factory=dict)
    accuracy: Mapping[Instrument, float] = field(
        default_factory=lambda: ACCURACY
    )  # mm; the protractor's degrees

    def __hash__(self) -> int:
        return hash((self.file, tuple(self.entries.items()), tuple(self.accuracy.items())))

    def __contains__(self, id: str) -> bool:
        return id in self.entries

    def each(self, id: str, by: Instrument = "calliper") -> tuple[Estimate | None, ...]:
        """Every length of a reading, None for a box left out."""
        entry = self.entries.get(id, Entry())
        accuracy = self.accuracy[by] if entry.accuracy is None else entry.accuracy
        return tuple(None if value is None else Estimate(value, accuracy) for value in entry.lengths)

    def length(self, id: str, by: Instrument = "calliper") -> Estimate | None:
        """A length; the mean where there are several. None where it was not read."""
        read = [value for value in self.each(id, by) if value is not None]
        return (
            mean_of([value.value for value in read], read[0].accuracy)
            if len(read) > 1
            else next(iter(read), None)
        )

    def angle(self, id: str, by: Instrument = "protractor") -> Estimate | None:
        """An angle in radians, of a number of degrees."""
        entry = self.entries.get(id, Entry())
        degrees = next((number for number in entry.numbers if number is not None), None)
        accuracy = self.accuracy[by] if entry.accuracy_number is None else entry.accuracy_number
        return None if degrees is None else Estimate(radians(degrees), radians(accuracy))

    def under(self, prefix: str) -> list[str]:
        """The ids that begin so."""
        return [id for id in self.entries if id.startswith(prefix)]
