"""Compare a job's ways, from its file to a table and to job files."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from geometry.records import Record
from jigs.asked import toml_source
from jigs.asked.by_job import by_job
from jigs.asked.change import Changes
from jigs.asked.job import Job, TorusJob
from jigs.asked.jobfile import job_of
from jigs.asked.toml_source import Source
from jigs.compare.tried import Compared, compared, tried, write_all
from jigs.compare.wish import Options, Wish, wish
from jigs.progress import Progress, silent_progress
from jigs.words.findings import Finding, Refused

if TYPE_CHECKING:
    from jigs.asked.vessel_job import VesselJob


class Comparison(Record):
    """`own` is None where the job itself is refused; `counts` are all candidates and those that looked makable."""

    job: Job
    own: Compared | None
    best: list[Compared]
    files: list[Path]
    counts: tuple[int, int]


def compare(
    path: Path, options: Options, write: bool = False, progress: Progress = silent_progress
) -> Comparison:
    """Raises Refused for a job that cannot be read, or an option that is wrong."""
    return compared_of(toml_source.read(path), path, options, write, progress)


def compared_of(
    source: Source, path: Path, options: Options, write: bool = False, progress: Progress = silent_progress
) -> Comparison:
    """The same of a file's values."""
    job = job_of(source, path)
    wanted = wish(job, options)
    every, counts = by_job(
        job, torus=lambda own: _tori(own, wanted), vessel=lambda own: _vessels(own, wanted)
    )
    chosen = compared(source, path, every, wanted, progress)
    files = write_all(source, path, chosen) if write else []
    return Comparison(job, tried(source, path, {}, wanted), chosen, files, counts)


def _tori(job: TorusJob, wanted: Wish) -> tuple[Iterator[Changes], tuple[int, int]]:
    """All candidates, the likeliest best first; how many there were and how many looked makable."""
    from jigs.compare.torus import changes, ranked

    try:
        found = ranked(job, wanted)
    except ValueError as error:
        raise Refused([Finding("no-torus", str(error), "Make the tube thinner")]) from error
    return changes(found, job), (found.tried, len(found.found))


def _vessels(job: VesselJob, wanted: Wish) -> tuple[Iterator[Changes], tuple[int, int]]:
    from jigs.compare.vessel import ranked_stacks, stack_changes

    stacks = ranked_stacks(job, wanted)
    return stack_changes(stacks, job), (stacks.tried, len(stacks.found))
