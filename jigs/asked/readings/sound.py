"""Whether what was typed into a box can be a reading of its kind."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.asked.readings.keys import key_of
from jigs.asked.readings.readings import Entry, Least
from jigs.words.findings import Finding


def unsound(id: str, entry: Entry, least: Least, file: str) -> Iterator[Finding]:
    """A word where a size belongs, and a size that nothing has. What a key takes is asked where the job is read."""
    if key_of(id):
        return
    read = [value for value in entry.lengths if value is not None]
    if least != "any" and any(value < 0 or (value == 0 and least != "nothing") for value in read):
        remedy = f"Write what you measured{'; for no light write 0' if least == 'nothing' else ''}"
        yield Finding("out-of-range", "cannot be so small", remedy, id, file, entry.line)
    elif entry.text:
        remedy = "Write what you measured, or take the line out"
        yield Finding("bad-length", f'"{entry.text}" is no reading', remedy, id, file, entry.line)
