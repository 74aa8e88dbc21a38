"""Whether a readings file names boxes that the job's shop book has."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from jigs.asked.readings.keys import key_of
from jigs.asked.readings.readings import Readings
from jigs.measured.arcs import PARTS, TOPIC
from jigs.words.findings import Finding

if TYPE_CHECKING:
    from jigs.work.model import Operation, Reading


def boxes(operations: Iterable[Operation]) -> dict[str, Reading]:
    """Every box of the book by the id under which it is typed, in the order of the work."""
    return {f"{operation.id}.{box.id}": box for operation in operations for box in operation.readings}


def _is_arc(id: str) -> bool:
    """[arc.NAME] with one of its parts."""
    head, *name, part = id.split(".")
    return head == TOPIC and len(name) == 1 and part in PARTS


def reading_faults(readings: Readings, operations: Iterable[Operation]) -> Iterator[Finding]:
    """Ids that no box has, and more values than a box takes."""
    if not readings.entries:
        return
    known = boxes(operations)
    for id, entry in readings.entries.items():
        box = known.get(id)
        if box is None and (key_of(id) or _is_arc(id)):
            continue  # a key that a file states by now has no box any more; arcs have none
        if box is None:
            near = difflib.get_close_matches(id, known, n=1)
            remedy = (
                f"Did you mean {near[0]}?"
                if near
                else "jigs measured JOB --blank lists the boxes of this job"
            )
            yield Finding(
                "unknown-reading", "is no box of this job's book", remedy, id, readings.file, entry.line
            )
        elif len(entry.lengths) > box.count:
            message = f"has {len(entry.lengths)} values; the book has room for {box.count}"
            yield Finding("too-many", message, "Leave the others out", id, readings.file, entry.line)
