"""Shop values that were never measured: named on top of a check, and on each jig that depends on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from jigs.families.places import lettered
from jigs.findings import Finding
from jigs.job import Job
from jigs.lengths import show_length
from jigs.part import Part

NOT_MEASURED = "not-measured"


@dataclass(frozen=True)
class _Value:
    """A value that only the turner's own machine or sheet tells, and which jigs are cut to it."""

    key: str
    what: str  # behind its size
    families: tuple[str, ...]
    parts: str  # within the names of those that depend on it


_VALUES = (
    _Value("saw.slot_width", "mitre slot", ("sled", "segments", "layup"), "runner"),
    _Value("saw.slot_depth", "depth of the mitre slot", ("sled", "segments", "layup"), "runner"),
    _Value("saw.slot_distance", "from blade to mitre slot", ("sled", "segments", "layup"), "base"),
    _Value(
        "saw.table_front",
        "from the table's front edge to the blade's axle",
        ("sled", "segments", "layup"),
        "base",
    ),
    _Value("boards.sheet", "sheet", ("sled", "segments", "truing", "layup"), "base"),
)


def told_on_jigs(parts: Iterable[Part], job: Job) -> list[Part]:
    """The parts, those that are cut to an assumed value lettered and noted so."""
    return [_told(part, [row for _, row in _rows(part, job)]) for part in parts]


def assumed_findings(job: Job, parts: Sequence[Part]) -> list[Finding]:
    """A warning for each assumed value, with the jigs that are cut to it."""
    by_key: dict[str, list[str]] = {}
    rows: dict[str, str] = {}
    for part in parts:
        for value, row in _rows(part, job):
            rows[value.key] = row
            by_key.setdefault(value.key, []).append(part.code)
    return [_finding(job, key, rows[key], list(dict.fromkeys(codes))) for key, codes in by_key.items()]


def _rows(part: Part, job: Job) -> Iterator[tuple[_Value, str]]:
    if part.process not in ("cut", "paper"):
        return
    owners: Mapping[str, object] = vars(job.workshop)
    for value in _VALUES:
        table, _, name = value.key.partition(".")
        if value.key not in job.places and part.family in value.families and value.parts in part.name:
            size = show_length(getattr(owners[table], name), job.unit)
            yield value, f"cut to an assumed {size} {value.what}"


def _told(part: Part, rows: Sequence[str]) -> Part:
    if not rows:
        return part
    words = [more for row in rows for more in lettered(part.outline, part.holes, (), (row.upper(),))]
    return replace(
        part, words=(*part.words, *words), notes=(*part.notes, *(f"{row}: measure yours" for row in rows))
    )


def _finding(job: Job, key: str, row: str, codes: Sequence[str]) -> Finding:
    message = f"was never measured; {', '.join(codes)} {'is' if len(codes) == 1 else 'are'} {row}"
    remedy = f"measure it and give {key.rpartition('.')[2]} in [{key.rpartition('.')[0]}]"
    return job.finding(NOT_MEASURED, message, key=key, remedy=remedy, severity="warning")
