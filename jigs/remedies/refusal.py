"""A refused job's own refusal, with what would do."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from jigs.progress import progress_bar
from jigs.words.findings import Refused, RefusedJob


@contextmanager
def with_remedies(path: Path, quiet: bool = False) -> Iterator[None]:
    """Look for what would do where the job at `path` is refused, with a bar unless it is to be quiet.

    Raises RefusedJob, or what refused anything else.
    """
    try:
        yield
    except Refused as refused:
        raise _advised(path, refused, quiet) from refused


def _advised(path: Path, refused: Refused, quiet: bool) -> Refused:
    from jigs.asked import toml_source
    from jigs.asked.jobfile import job_of
    from jigs.remedies.glued import as_glued
    from jigs.remedies.offered import remedies
    from jigs.remedies.words import remedies_json, remedies_text
    from jigs.stages.shop.assumed import assumed_in_verdict, assumed_text

    try:
        source = toml_source.read(path)
    except Refused:
        return refused
    with progress_bar(quiet) as progress:
        found = remedies(source, path, progress=progress)
    try:
        job = job_of(source, path)
    except Refused:
        return refused
    if found is None:
        return Refused(as_glued(refused.findings, job.readings))
    assumed = assumed_in_verdict(job)
    questions = "\n".join(question.told for question in job.questions)
    doubted = any(one.code == "misread" for one in refused.findings)
    advice = [assumed_text(assumed), questions, remedies_text(found, source, doubted)]
    return RefusedJob(
        refused.findings, "\n\n".join(text for text in advice if text), remedies_json(found), assumed
    )
