"""Shop values that were never measured: named on top of a check or a refusal, and on each jig that depends on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from geometry.grouping import gathered
from geometry.records import replace
from jigs.asked.job import Job
from jigs.parts.families import RAIL
from jigs.parts.part import Part
from jigs.parts.places import lettered
from jigs.words.findings import Finding
from jigs.words.tables import table

NOT_MEASURED = "not-measured"


# What only the turner's own machine or sheet tells, and jigs are cut to; with each what stands behind its size.
_TABLE_SAW: Mapping[str, str] = {
    "saw.slot_width": "mitre slot",
    "saw.slot_depth": "depth of the mitre slot",
    "saw.slot_distance": "from blade to mitre slot",
    "saw.table_front": "from the table's front edge to the blade's axle",
    "saw.kerf": "kerf",
    "saw.tilts": "tilt of the blade's top",
    "boards.sheet": "sheet",
}
# Of a sled that runs on a rail along the edge of a bandsaw's table.
_BANDSAW: Mapping[str, str] = {
    "bandsaw.drift": "of drift",
    "bandsaw.table_left": "from the bandsaw's blade to its table's left edge",
    "bandsaw.table_front": "from the bandsaw's teeth to its table's front edge",
    "boards.sheet": "sheet",
}

# What decides whether a job can be made, whatever its jigs are cut to.
_OF_THE_VERDICT: Mapping[str, str] = {
    "lathe.swing_over_bed": "swing over the bed",
    "saw.blade_height": "of blade above the saw's table",
    "boards.thickness": "board for what holds the work",
}
_HEADING = "warning: never measured, so assumed; measure yours and state them in the job or workshop file"


def told_on_jigs(parts: Sequence[Part], job: Job) -> list[Part]:
    """The parts, those that are cut to an assumed value lettered so."""
    guided = _guided(parts)
    return [
        _told(part, [f"cut to an assumed {size}." for _, size in _rows(part, job, guided)]) for part in parts
    ]


def assumed_findings(job: Job, parts: Sequence[Part]) -> list[Finding]:
    """A warning for each assumed value: those that the verdict rests on, then those that jigs are cut to."""
    by_key: dict[str, list[str]] = {}
    sizes: dict[str, str] = {}
    guided = _guided(parts)
    for part in parts:
        for key, size in _rows(part, job, guided):
            sizes[key] = size
            by_key.setdefault(key, []).append(part.code)
    cut = [_finding(job, key, sizes[key], ", ".join(dict.fromkeys(codes))) for key, codes in by_key.items()]
    return [*assumed_in_verdict(job), *cut]


def cut_to_assumed(job: Job, parts: Sequence[Part]) -> dict[str, list[Part]]:
    """Keys of shop values that no file states, each with the parts that are cut to it."""
    guided = _guided(parts)
    return gathered((key, part) for part in parts for key, _ in _rows(part, job, guided))


def cut_to(parts: Sequence[Part]) -> frozenset[str]:
    """Keys of all shop values that parts are cut to."""
    guided = _guided(parts)
    return frozenset(key for part in parts for key in _keys(part, guided))


def assumed_in_verdict(job: Job) -> list[Finding]:
    """A warning for each value that decides whether the job can be made, and that no file states."""
    return [
        _finding(job, key, f"{_size(job, key)} {what}", "it decides what can be made")
        for key, what in _OF_THE_VERDICT.items()
        if key not in job.places
    ]


def assumed_text(notes: Iterable[Finding]) -> str:
    """The assumed values among some notes as one list; nothing where there are none."""
    rows = [(note.key, note.message) for note in notes if note.code == NOT_MEASURED]
    return "\n".join([_HEADING, *table(rows)]) if rows else ""


def _guided(parts: Iterable[Part]) -> frozenset[str]:
    """How the names of sleds begin that run on a bandsaw's rail."""
    return frozenset(part.name.removesuffix("-rail") for part in parts if part.jig.cut_to == RAIL)


def _rows(part: Part, job: Job, guided: frozenset[str]) -> Iterator[tuple[str, str]]:
    """Each assumed key that the part is cut to, with its size as text."""
    for key, what in _keys(part, guided).items():
        if key not in job.places:
            yield key, f"{_size(job, key)} {what}"


def _keys(part: Part, guided: frozenset[str]) -> Mapping[str, str]:
    """What the part is cut to, with what stands behind its size."""
    whole = _BANDSAW if part.name.rpartition("-")[0] in guided else _TABLE_SAW
    return {key: what for key, what in whole.items() if key in part.jig.cut_to}


def _size(job: Job, key: str) -> str:
    owners: Mapping[str, object] = vars(job.workshop)
    of, _, name = key.partition(".")
    value = getattr(owners[of], name)
    if key == "bandsaw.drift":
        return f"{value:+.2f}°"
    return value if isinstance(value, str) else job.show(value)


def _told(part: Part, rows: Sequence[str]) -> Part:
    if not rows:
        return part
    words = [more for row in rows for more in lettered(part.outline, part.holes, (), (row.upper(),))]
    return replace(part, words=(*part.words, *words))


def _finding(job: Job, key: str, size: str, rests: str) -> Finding:
    """`rests` names what depends on it."""
    of, _, name = key.partition(".")
    remedy = f"measure yours and state {name} in [{of}]"
    return job.warning(NOT_MEASURED, f"{size}, assumed ({rests})", key=key, remedy=remedy)
