"""From a job file's text to what the page shows at once: form, section, pattern, verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from time import process_time

from geometry.records import dataclass
from jigs.asked import toml_source
from jigs.asked.jobfile import AnyJob, form_of, job_of
from jigs.asked.key import Form
from jigs.asked.toml_source import Source
from jigs.forms.solve import shaped
from jigs.page.contract import Fast, Said
from jigs.page.drawing import drawing_of
from jigs.page.verdicts import verdicts_of
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape
from jigs.stages.blank.check import blank_findings
from jigs.stages.layup.check.layup import layup_findings
from jigs.stages.stack.check.whole import stack_findings
from jigs.stages.wedge_rings.check import sled_findings
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import Unit

FAULT = Finding(
    "fault",
    "this cannot be drawn: a fault of the program",
    "report it with the job file, please; Undo goes on",
)


@dataclass(frozen=True)
class Reading:
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


def fast(reading: Reading, coarse: bool = False) -> Fast:
    """Everything that can be had at once; `coarse` while something is dragged. What cannot be drawn says why."""
    begun = process_time()
    if reading.job is None:
        return _undrawn(reading.faults, begun)
    try:
        shape = shaped(reading.job, coarse)
        drawing, verdicts = drawing_of(shape, coarse), verdicts_of(shape)
        return Fast(drawing, verdicts, said(_known(shape)), _spent(begun))
    except Refused as refused:
        return _undrawn(refused.findings, begun)
    except Exception:  # whatever it stumbles over: the page lives on, and the file is as it was
        return _undrawn([FAULT], begun)


def said(findings: Iterable[Finding]) -> list[Said]:
    """Findings as the page tells them."""
    return [Said(one.severity, one.code, one.said, one.key, one.line) for one in findings]


def _undrawn(findings: Iterable[Finding], begun: float) -> Fast:
    return Fast(None, [], said(findings), _spent(begun))


def _spent(begun: float) -> float:
    return round((process_time() - begun) * 1000, 1)


def _known(shape: Shape) -> Iterator[Finding]:
    """What can be said without working out whether pieces are held, the wood and the jigs."""
    yield from by_form(
        shape, torus=_known_of_torus, vessel=lambda own: stack_findings(own.job, own.section, own.stack)
    )
    yield from layup_findings(shape.job, shape.layups)


def _known_of_torus(shape: TorusShape) -> list[Finding]:
    return [*blank_findings(shape.job, shape.blank), *sled_findings(shape.job, shape.blank, shape.sled)]
