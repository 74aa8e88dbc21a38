"""What a turner would accept, and what matters most."""

from __future__ import annotations

import re
from math import radians
from typing import TYPE_CHECKING, Literal, NoReturn, get_args

from geometry.records import Record
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import BadLength, parse_length

if TYPE_CHECKING:
    from jigs.asked.job import Job

By = Literal["wood", "cuts", "time", "gap", "piece", "cost"]
BY: tuple[By, ...] = get_args(By)
RINGS, SEGMENTS = (8, 48), (6, 24)  # from, to; even ones
MOST_RINGS, MOST_SEGMENTS = 180, 96
PIECES = {
    "none": 1,
    "left and right": 2,
    "up and down": 2,
    "both": 4,
}  # of a segment, by how a layup is mirrored
BEST = 4
MOST_BEST = 12
SAW_ERROR = 0.05  # degrees: what a sled that was set with care leaves. Common practice, no source


class Options(Record):
    """As they are written on the command line; None is what is usual."""

    rings: str | None = None
    segments: str | None = None
    boards: str | None = None
    layups: str | None = None
    by: By = "time"
    best: int = BEST
    saw_error: str = f"{SAW_ERROR}"


class Wish(Record):
    """Counts to try; depths of segment, which are thicknesses of boards as planed, mm; radians."""

    rings: tuple[int, ...]
    segments: tuple[int, ...]
    depths: tuple[float, ...]
    layups: tuple[str, ...]  # how a layup may be mirrored; "" alone for solid wood
    by: By
    best: int
    saw_error: float


def wish(job: Job, options: Options) -> Wish:
    """What was asked on the command line; boards at hand where none were named. Raises Refused."""
    from jigs.asked.job import (
        TorusJob,
    )  # the command line asks this module for its choices: it starts quickly

    if options.rings and not isinstance(job, TorusJob):
        _refuse(
            "--rings counts wedge rings; a vessel's follow its boards", "Write --boards 19,22,25, as planed"
        )
    if options.by == "cost" and not job.workshop.prices.wood:
        _refuse("--by cost needs the price of wood", "State wood in [prices] of the workshop file")
    if not 1 <= options.best <= MOST_BEST:
        _refuse(f"--best {options.best} is not from 1 to {MOST_BEST}", f"Write --best {BEST}")
    return Wish(
        _counts("rings", options.rings, RINGS, MOST_RINGS),
        _counts("segments", options.segments, SEGMENTS, MOST_SEGMENTS),
        _depths(job, options.boards),
        _layups(job, options.layups),
        options.by,
        options.best,
        radians(_degrees(options.saw_error)),
    )


def _counts(name: str, text: str | None, usual: tuple[int, int], most: int) -> tuple[int, ...]:
    """The even numbers of "12-24", or of one number."""
    found = re.fullmatch(r"\s*(\d{1,3})(?:\s*-\s*(\d{1,3}))?\s*", text or f"{usual[0]}-{usual[1]}")
    low, high = (int(found[1]), int(found[2] or found[1])) if found else (1, 0)
    counts = tuple(count for count in range(max(low, 6), min(high, most) + 1) if count % 2 == 0)
    if not counts:
        _refuse(f"--{name} {text} names no even number from 6 to {most}", f"Write --{name} 12-24")
    return counts


def _depths(job: Job, text: str | None) -> tuple[float, ...]:
    if text is None:
        boards = {round(board.thickness, 3) for board in job.workshop.stock.boards}
        return tuple(sorted(boards))
    try:
        depths = [parse_length(part.strip(), job.unit) if _has_unit(part) else parse_length(float(part), job.unit)
                  for part in text.split(",")]  # fmt: skip
    except (BadLength, ValueError):
        _refuse(f"--boards {text} is not a list of thicknesses", "Write --boards 22,27,34, as planed")
    if min(depths) <= 0:
        _refuse(f"--boards {text} has a thickness of nothing", "Write --boards 22,27,34, as planed")
    return tuple(sorted(set(depths)))


def _layups(job: Job, text: str | None) -> tuple[str, ...]:
    """The job's own way where none is named; "any" is all."""
    if job.layup is None:
        return ("",)
    named = [job.layup.mirrored] if text is None else [part.strip() for part in text.split(",")]
    named = list(PIECES) if named == ["any"] else named
    if wrong := [name for name in named if name not in PIECES]:
        _refuse(
            f"--layups {wrong[0]} is no way to mirror a layup", f"Name some of: {', '.join(PIECES)}; or any"
        )
    return tuple(dict.fromkeys(named))


def _has_unit(text: str) -> bool:
    return not re.fullmatch(r"\s*[0-9.]+\s*", text)


def _degrees(text: str) -> float:
    try:
        degrees = float(text)
    except ValueError:
        degrees = -1.0
    if not 0 < degrees <= 2:
        _refuse(f"--saw-error {text} is not an angle from 0 to 2 degrees", "Write --saw-error 0.05")
    return degrees


def _refuse(message: str, remedy: str) -> NoReturn:
    raise Refused([Finding("wrong-option", message, remedy)])
