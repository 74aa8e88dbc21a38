"""Compare a job's ways, from its file to a table and to job files."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from jigs.asked import toml_source
from jigs.asked.job import TorusJob
from jigs.asked.jobfile import job_of
from jigs.compare.ranked import ranked
from jigs.compare.tried import Compared, compared, tried
from jigs.compare.wish import Options, wish
from jigs.compare.write import write_all
from jigs.words.findings import Finding, Refused


@dataclass(frozen=True)
class Comparison:
    """`own` is None where the job itself is refused; `counts` are all candidates and those that looked makable."""

    job: TorusJob
    own: Compared | None
    best: list[Compared]
    files: list[Path]
    counts: tuple[int, int]


def compare(path: Path, options: Options, write: bool = False) -> Comparison:
    """Raises Refused for a job that cannot be read, is no torus, or an option that is wrong."""
    source = toml_source.read(path)
    job = job_of(source, path)
    if not isinstance(job, TorusJob):
        message = "compare is for a torus: a vessel's rings follow its profile"
        raise Refused(
            [Finding("wrong-form", message, 'Use heights = "fewest rings" or "least wood" in [rings]')]
        )
    wanted = wish(job, options)
    try:
        found = ranked(job, wanted)
    except ValueError as error:
        raise Refused([Finding("no-torus", str(error), "Make the tube thinner")]) from error
    chosen = compared(source, path, job, found, wanted)
    files = write_all(source, path, chosen) if write else []
    return Comparison(job, tried(source, path, {}, wanted), chosen, files, (found.tried, len(found.found)))
