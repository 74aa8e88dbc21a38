"""Parts as files: written, read again and measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from io import BytesIO
from typing import TYPE_CHECKING, Any

from geometry.measuring.drawn_size import DrawnSize
from jigs.asked.readings.machine import drawn_size
from jigs.files.for_printer import as_drawn, as_made
from jigs.progress import Progress, silent_progress
from jigs.words.findings import Finding, Refused

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.files.target import Target
    from jigs.parts.part import Part


def written_back(part: Part, to: Target, job: Job) -> list[dict[str, Any]]:
    """Write a part to a file or a stream; return its dimensions as asked for and as measured back.

    Raises Refused where it cannot be written, or does not measure what it should.
    """
    from jigs.files.formats import FORMATS
    from jigs.parts.readback import measure

    form, kerf, drawn = FORMATS[part.process], kerf_for(part, job), drawn_for(part, job)
    try:
        form.write(as_drawn(part, drawn), to, kerf)
        if isinstance(to, BytesIO):
            to.seek(0)
        measured = measure(part, as_made(form.read(to, kerf), drawn))
    except ValueError as error:
        message = f"{form.file_name(part, job.name)}: {error}"
        raise Refused(
            [Finding("does-not-measure", message, "report this: it is the tool's fault")]
        ) from error
    return [
        {"name": m.name, "value": round(m.nominal, 6), "unit": m.unit, "measured": round(m.measured, 6)}
        for m in measured
    ]


def kerf_for(part: Part, job: Job) -> float:
    """What the cutter takes off a part's file, mm."""
    from jigs.files.formats import FORMATS

    return job.workshop.cutter.kerf if FORMATS[part.process].cut else 0.0


def drawn_for(part: Part, job: Job) -> DrawnSize:
    """How a print is drawn for a printer that was measured; the coupon shows what it does, and is drawn as it is."""
    return drawn_size(job) if part.process == "print" and not part.jig.first else DrawnSize()


def prove_files(parts: Sequence[Part], job: Job, progress: Progress = silent_progress) -> None:
    """Write every part into memory and measure it back, as a make would. Raises Refused with all that fail.

    Of a drawing without its strokes: those that were found room for can be written, and nothing measures them.
    """
    faults: list[Finding] = []
    for done, part in enumerate(parts):
        progress(done, len(parts), part.name)
        try:
            written_back(part if part.process == "print" else _unlettered(part), BytesIO(), job)
        except Refused as refused:
            faults += refused.findings
    if faults:
        raise Refused(faults)


def _unlettered(part: Part) -> Part:
    """A part without what is engraved on it or noted beside it."""
    return replace(part, marks=(), beside=(), facts=())
