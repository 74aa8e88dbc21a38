"""Whether a readings file names boxes that the job's shop book has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

from jigs.asked.readings.keys import key_of
from jigs.asked.readings.readings import SECTION, Readings
from jigs.asked.readings.sound import unsound
from jigs.measured.arcs import PARTS, TOPIC
from jigs.measured.glued import GROWN, OF_TORUS, OF_VESSEL, RINGS, UP_TO, stated_rings
from jigs.words.findings import Finding, near_names

if TYPE_CHECKING:
    from jigs.work.model import Operation, Reading


def boxes(operations: Iterable[Operation]) -> dict[str, Reading]:
    """Every box of the book by the id under which it is typed, in the order of the work."""
    return {f"{operation.id}.{box.id}": box for operation in operations for box in operation.readings}


def _is_arc(id: str) -> bool:
    """[arc.NAME] with one of its parts."""
    head, *name, part = id.split(".")
    return head == TOPIC and len(name) == 1 and part in PARTS


def _regrouped(id: str, known: Mapping[str, Reading]) -> Reading | None:
    """The box of a stack's ring, in whatever part of the gluing the book has it now: glued rings may change that."""
    if not (id.startswith(GROWN) and UP_TO in id):
        return None
    ring = id.partition(UP_TO)[2]
    return next(
        (box for one, box in known.items() if one.startswith(GROWN) and one.endswith(f"{UP_TO}{ring}")), None
    )


def _meant(id: str, known: Mapping[str, Reading], glued: bool) -> str:
    """What to do about an id that no box has: rings that are glued leave the book, with the boxes of their making."""
    near = near_names(id, known)
    meant = f"Did you mean {near[0]}?" if near else "jigs measured JOB --blank lists the boxes of this job"
    if glued:
        return f"If it was read while the rings of [{SECTION}] were made, take the line out. {meant}"
    return meant


def reading_faults(readings: Readings, operations: Iterable[Operation]) -> Iterator[Finding]:
    """Ids that no box has, more values than a box takes, and sizes that nothing has."""
    if not readings.entries:
        return
    known = boxes(operations)
    for id, entry in readings.entries.items():
        box = known.get(id) or _regrouped(id, known)
        if id == RINGS and not stated_rings(readings):
            remedy = "Write how many rings are glued, a whole number"
            yield Finding("out-of-range", "is not a number of rings", remedy, id, readings.file, entry.line)
        if id in (*OF_VESSEL, *OF_TORUS) and RINGS not in readings and not readings.under(GROWN):
            remedy = "Write how many rings are glued too: rings"
            yield Finding("no-count", "says nothing without rings", remedy, id, readings.file, entry.line)
        if box is None and (key_of(id) or _is_arc(id) or id in (*OF_VESSEL, *OF_TORUS)):
            continue  # a key that a file states by now has no box any more; arcs have none
        if box is None:
            yield Finding(
                "unknown-reading",
                "is no box of this job's book",
                _meant(id, known, glued=stated_rings(readings) > 0),
                id,
                readings.file,
                entry.line,
            )
        elif len(entry.lengths) > box.count:
            message = f"has {len(entry.lengths)} values; the book has room for {box.count}"
            yield Finding("too-many", message, "Leave the others out", id, readings.file, entry.line)
        else:
            yield from unsound(id, entry, box.least, readings.file)
