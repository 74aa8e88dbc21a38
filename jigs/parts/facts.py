"""What a file says of its part, for whoever finds it alone: the job, how many, of what, how thick."""

from __future__ import annotations

from jigs.asked.job import Job
from jigs.parts.part import Part
from jigs.words.lengths import MM_PER_INCH, Unit, show_length

JOB = "Job"
Facts = tuple[tuple[str, str], ...]


def facts_of(part: Part, job: Job) -> Facts:
    """Name and value of each. A turned part is a section and has no thickness of its own."""
    return (
        (JOB, job.title),
        ("Quantity", f"{part.quantity:d}"),
        ("Material", part.material),
        *((("Thickness", job.show(part.thickness)),) if part.thickness else ()),
        *(_printing(part, job) if part.process == "print" else ()),
    )


def _printing(part: Part, job: Job) -> Facts:
    """What its file cannot say of how it is printed."""
    fill = "solid" if part.jig.solid else "three walls or more"
    return (("Fill", fill), ("Layer", job.show(job.workshop.printer.layer)), ("Supports", "none"))


def sheet_facts(one: Part, size: tuple[float, float], thickness: float, offcut: bool, unit: Unit) -> Facts:
    """Name and value of each for a whole sheet, on which `one` lies with others of its kind; mm."""
    job = [fact for fact in one.facts if fact[0] == JOB]
    wide, high = (show_length(side, unit) for side in size)
    return (
        *job,
        ("Material", f"offcut: {one.material}" if offcut else one.material),
        ("Thickness", show_length(thickness, unit)),
        ("Sheet", f"{wide} x {high}"),
    )


def thickness_word(thickness: float, unit: Unit) -> str:
    """A thickness (mm) as a word in a file's name, with its unit: "11.9mm", "0.469in"."""
    return f"{thickness:g}mm" if unit == "mm" else f"{thickness / MM_PER_INCH:.3f}in"
