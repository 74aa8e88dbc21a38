"""The turner's choice for each family: printed, cut from sheet, or on paper; the part follows."""

from __future__ import annotations

from geometry.records import replace
from jigs.asked.defaults import default_plate
from jigs.asked.job_shop import Process, Workshop
from jigs.asked.keys import KEYS
from jigs.parts.families import family_of
from jigs.parts.part import Dimension, Lettering, Mark, Part
from jigs.parts.places import raised_rise, raised_width
from jigs.parts.probes import Thickness
from jigs.words.lengths import Unit, show_length

WIDE_STROKE = 0.2  # of the letters' height; wider strokes fill them
USUAL = {key.name: key.default for key in KEYS if key.table == "made"}  # by family
MATERIAL: dict[Process, str] = {
    "print": "PLA or PETG, flat on the bed, no supports",
    "cut": "sheet, as measured",
    "paper": "sheet, as measured",
}
WOOD_PAD = "hardwood, planed to the thickness"
BEVEL_NOTE = (
    "A plate this thick touches the hollow with its corners first: file its edge from one side, down to {land} at "
    "the other, and hold that side to the profile."
)


def plate_thickness(process: Process, workshop: Workshop, longest: float, unit: Unit) -> float:
    """Of a hand-held plate `longest` mm long: printed, as jobs in this unit have it; else the sheet's."""
    return default_plate(longest, unit) if process == "print" else workshop.boards.sheet


def play_of(process: Process, workshop: Workshop) -> float:
    """Of a slot or socket over what enters it, mm."""
    return workshop.printer.play if process == "print" else workshop.boards.play


def as_chosen(part: Part, workshop: Workshop, unit: Unit = "mm") -> Part:
    """The part as the turner wants its family made; what its family makes otherwise anyhow stays so."""
    key = part.jig.made or part.family
    if part.process != USUAL[key]:
        return part
    return as_made(part, getattr(workshop.made, key), workshop, unit)


def as_made(part: Part, process: Process, workshop: Workshop, unit: Unit = "mm") -> Part:
    """The part as it is when it is made so; outline, holes and their dimensions stay. Turned parts stay whole.

    Thickness, material and the width of lettering follow; a bevel is printed only, and filed by hand else. On paper a
    part is of what it would be cut from.
    """
    if process == part.process or part.process == "turn":
        return part
    changed = {"print": _printed, "cut": _cut, "paper": _on_paper}[process](part, workshop, unit)
    if part.bevel and not changed.bevel:
        land = show_length(part.bevel.land, unit)
        changed = replace(changed, making=(*changed.making, BEVEL_NOTE.format(land=land)))
    if part.process == "cut" and process == "paper":
        return replace(changed, process=process)
    material = WOOD_PAD if part.jig.made_up and process == "cut" else MATERIAL[process]
    return replace(changed, process=process, material=material)


def _printed(part: Part, workshop: Workshop, unit: Unit) -> Part:
    stack = part.jig.block
    thickness = part.thickness * part.quantity if stack else _printed_thickness(part, unit)
    return replace(
        part,
        thickness=thickness,
        quantity=1 if stack else part.quantity,
        stack=1 if stack else part.stack,
        marks=tuple(_uncounted(mark) for mark in part.marks) if stack else part.marks,
        dimensions=_with_thickness(part, thickness),
        mark_width=_stroke(part, workshop),
        mark_height=raised_rise(workshop.printer),
    )


def _uncounted(mark: Mark) -> Mark:
    """Without the plate's number."""
    if not isinstance(mark, Lettering) or mark.of == 1:
        return mark
    count = f" {'_' * len(str(mark.of))} OF {mark.of}"
    return replace(mark, text=mark.text.replace(count, ""), of=1)


def _printed_thickness(part: Part, unit: Unit) -> float:
    if family_of(part.family).stepped:
        return part.thickness
    x0, y0, x1, y1 = part.outline.bounds
    return default_plate(max(x1 - x0, y1 - y0), unit)


def _stroke(part: Part, workshop: Workshop) -> float:
    """Two lines of plastic, or one where the letters are small."""
    least = min((mark.height for mark in part.marks if isinstance(mark, Lettering)), default=10.0)
    wide = raised_width(workshop.printer)
    return wide if wide <= WIDE_STROKE * least + 1e-9 else wide / 2


def _cut(part: Part, workshop: Workshop, unit: Unit) -> Part:
    thickness = part.thickness if part.jig.made_up else workshop.boards.sheet
    return replace(part, thickness=thickness, dimensions=_with_thickness(part, thickness), bevel=None)


def _on_paper(part: Part, workshop: Workshop, unit: Unit) -> Part:
    """As thick as the wood that its drawing is glued on, which the drawing does not show."""
    cut = part if part.process == "cut" else _cut(part, workshop, unit)
    flat = tuple(d for d in cut.dimensions if not isinstance(d.probe, Thickness))
    return replace(cut, dimensions=flat, bevel=None)


def _with_thickness(part: Part, thickness: float) -> tuple[Dimension, ...]:
    """The dimensions, that of the thickness last and anew."""
    rest = [d for d in part.dimensions if not isinstance(d.probe, Thickness)]
    return (*rest, Dimension("thickness", thickness, Thickness()))
