"""Parts as files: drawn for a printer that was measured, written, read again and measured."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from io import BytesIO
from typing import TYPE_CHECKING, Any

from geometry.measuring.drawn_size import DrawnSize
from geometry.records import replace
from jigs.asked.readings.machine import drawn_size
from jigs.parts.part import Lettering, Mark, Part, Point
from jigs.parts.readback import ReadBack
from jigs.progress import Progress, silent_progress
from jigs.words.findings import Finding, Refused
from jigs.words.quantity import count_text

if TYPE_CHECKING:
    from jigs.asked.job import Job
    from jigs.files.formats import Format
    from jigs.files.target import Target
    from jigs.parts.readback import Measured

TOO_WIDE = "cut-too-wide"
TOLERANCE = 0.02  # mm, of a contour that was moved and moved back


def as_drawn(part: Part, drawn: DrawnSize) -> Part:
    """The plate as its file has to have it; marks keep their size, and their places on it. Its dimensions stay."""
    if drawn.exact:
        return part
    bevel = part.bevel and replace(part.bevel, top=drawn.outline(part.bevel.top))
    return replace(
        part,
        outline=drawn.outline(part.outline),
        holes=tuple(drawn.opening(hole) for hole in part.holes),
        bevel=bevel,
        marks=tuple(_placed(mark, 1 / drawn.scale) for mark in part.marks),
    )


def as_made(read: ReadBack, drawn: DrawnSize) -> ReadBack:
    """What the printer makes of what a file holds."""
    if drawn.exact:
        return read
    outline, *holes = read.contours
    contours = (drawn.made_outline(outline), *(drawn.made_opening(hole) for hole in holes))
    return replace(read, contours=contours, tolerance=read.tolerance + TOLERANCE)


def _placed(mark: Mark, factor: float) -> Mark:
    def at(place: Point) -> Point:
        return place[0] * factor, place[1] * factor

    if isinstance(mark, Lettering):
        return replace(mark, origin=at(mark.origin))
    return replace(mark, points=tuple(at(place) for place in mark.points))


def written_back(part: Part, to: Target, job: Job) -> list[dict[str, Any]]:
    """Write a part to a file or a stream; return its dimensions as asked for and as measured back.

    Raises Refused where it cannot be written, or does not measure what it should.
    """

    def written(form: Format, drawn: Part, kerf: float) -> ReadBack:
        form.write(drawn, to, kerf)
        if isinstance(to, BytesIO):
            to.seek(0)
        return form.read(to, kerf)

    return [
        {"name": m.name, "value": round(m.nominal, 6), "unit": m.unit, "measured": round(m.measured, 6)}
        for m in _measured(part, job, written)
    ]


def _measured(part: Part, job: Job, read: Callable[[Format, Part, float], ReadBack]) -> tuple[Measured, ...]:
    """What `read` finds of the part as it is drawn. Raises Refused."""
    from jigs.files.formats import FORMATS
    from jigs.parts.readback import measure

    form, kerf, drawn = FORMATS[part.process], kerf_for(part, job), drawn_for(part, job)
    try:
        return measure(part, as_made(read(form, as_drawn(part, drawn), kerf), drawn))
    except ValueError as error:
        if kerf and _measures(form, part, drawn):
            raise Refused([_too_wide(job, [part])]) from error
        message = f"{form.file_name(part, job.name)}: {error}"
        raise Refused(
            [Finding("does-not-measure", message, "report this: it is the tool's fault")]
        ) from error


def _measures(form: Format, part: Part, drawn: DrawnSize) -> bool:
    """Whether it measures right where nothing is allowed for the cut."""
    from jigs.parts.readback import measure

    try:
        measure(part, as_made(form.unwritten(as_drawn(_unlettered(part), drawn), 0.0), drawn))
    except ValueError:
        return False
    return True


def _too_wide(job: Job, parts: Sequence[Part]) -> Finding:
    others = f" and {count_text(len(parts) - 1, 'other part')}" if len(parts) > 1 else ""
    return job.finding(
        TOO_WIDE,
        f"a cut {job.show(job.workshop.cutter.kerf)} wide does not get into the narrowest holes, slots and corners of "
        f"{parts[0].name}{others}",
        key="cutter.kerf",
        remedy="set it to 0 and let the cutter's own program offset its path; bore by hand what the cutter does not "
        "get into, and file inside corners square",
    )


def kerf_for(part: Part, job: Job) -> float:
    """What the cutter takes off a part's file, mm."""
    from jigs.files.formats import FORMATS

    return job.workshop.cutter.kerf if FORMATS[part.process].cut else 0.0


def drawn_for(part: Part, job: Job) -> DrawnSize:
    """How a print is drawn for a printer that was measured; the coupon shows what it does, and is drawn as it is."""
    return drawn_size(job) if part.process == "print" and not part.jig.first else DrawnSize()


def prove_files(parts: Sequence[Part], job: Job, progress: Progress = silent_progress) -> None:
    """Measure every part as its file will have it. Raises Refused with all that a make would refuse.

    Without their lettering: words that were found room for can be written, and nothing measures them.
    """
    faults, narrow = list[Finding](), list[Part]()
    for done, part in enumerate(parts):
        progress(done, len(parts), part.name)
        try:
            _measured(_unlettered(part), job, lambda form, drawn, kerf: form.unwritten(drawn, kerf))
        except Refused as refused:
            faults += refused.findings
            narrow += [part] if any(found.code == TOO_WIDE for found in refused.findings) else []
    if narrow:
        faults = [*(fault for fault in faults if fault.code != TOO_WIDE), _too_wide(job, narrow)]
    if faults:
        raise Refused(faults)


def _unlettered(part: Part) -> Part:
    return replace(part, marks=tuple(mark for mark in part.marks if not isinstance(mark, Lettering)))
