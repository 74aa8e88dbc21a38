"""A job file's text as it is read, and findings as the page tells them; every process of the page needs both."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from geometry.records import Record
from jigs.asked import toml_source
from jigs.asked.jobfile import AnyJob, form_of, job_of
from jigs.asked.key import Form
from jigs.asked.toml_source import Source
from jigs.page.contract import Said
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import Unit


class Reading(Record):
    """What became of a text: `job` is None where it cannot be read, `source` where it is not TOML."""

    source: Source | None
    job: AnyJob | None
    form: Form | None
    faults: tuple[Finding, ...]

    @property
    def unit(self) -> Unit:
        """That of the job, or the one its text names."""
        if self.job is not None:
            return self.job.unit
        return "in" if self.source is not None and self.source.data.get("unit") == "in" else "mm"


def read(text: str, path: Path) -> Reading:
    """Read a text as the job file at `path`; nothing is raised."""
    try:
        source = toml_source.parse(text, str(path))
    except Refused as refused:
        return Reading(None, None, None, refused.findings)
    form = form_of(source)
    try:
        return Reading(source, job_of(source, path), form, ())
    except Refused as refused:
        return Reading(source, None, form, refused.findings)


def said(findings: Iterable[Finding]) -> list[Said]:
    """Findings as the page tells them."""
    return [Said(one.severity, one.code, one.said, one.key, one.line) for one in findings]
