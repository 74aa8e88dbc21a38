"""What is cut from sheet, board and hardwood, or sawn to a paper drawing: the operations."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Sequence

from jigs.asked.job import Job
from jigs.files.sheets.nesting import Sheet, left_out, nest, strips
from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.building.steps.whole import built_here
from jigs.words.file_names import FULL_SIZE, of_job
from jigs.words.lengths import PROOF_LINE, parse_length
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import CHECKED, CROSSCUT, FITTED, MARKING, SETTING, each
from jigs.work.model import (
    Check,
    JigUse,
    Operation,
    Rack,
    Stage,
    at_bench,
    at_table_saw,
    builds,
    made,
    right_if,
)
from jigs.work.steps import by_page, nth
from jigs.work.supplies import cut_singly, paper_boards
from jigs.work.supplies import sheets as of_sheets

ID = "cutting_out"
PEN = "Write each part's code on it with a pen before you break up the sheet."
ROUTED = "A router leaves inside corners round: file them square. Bore the holes that its bit does not enter."
OTHER = "This offcut has another thickness: try a slot in it first, and stack plates by what you measure."
FITS = Check(
    "slot",
    "Push a tab into a slot: by hand, without play",
    if_not="loose or tight: measure this sheet, state it, and make the drawings again",
)

THICK = Check(
    "thick",
    "Calliper it near each edge: as thick as listed",
    if_not="plane it, or state what it is and make the drawings again",
)


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """One for each sheet; then what is too large for the cutter; paper; what is joined from pieces."""
    shop, later = plan.job.workshop, built_here(plan, rack)
    cut = [part for part in rack.parts if part.process == "cut" and not part.jig.first]
    large, drawings = left_out(cut, shop), of_job(plan.job.name, FULL_SIZE)
    return [
        *_sheets(plan.job.name, nest(cut, shop, plan.job.unit), later),
        *_by_hand(large, later, drawings),
        *_strips(strips(cut), later),
        *_paper([p for p in rack.parts if p.process == "paper" and not p.jig.first], later, plan.job),
        *_join(plan, rack.parts),
    ]


def _sheets(job: str, sheets: Sequence[Sheet], later: frozenset[str]) -> Iterator[Operation]:
    """A part that lies on several has its words on the first."""
    met: Counter[str] = Counter()
    told: set[str] = set()
    for sheet in sheets:
        what = sheet.placed[0].part.material.partition(",")[0].partition(" ")[0]
        met[what] += 1
        own = [_on(part, count, told | later) for part, count in laid_on(sheet)]
        told |= {use.part for use in own}
        yield _cut(job, f"{what}{nth(met[what])}", what, sheet, tuple(own))


def laid_on(sheet: Sheet) -> list[tuple[Part, int]]:
    """Each part on a sheet and how many of it, in the order in which they were laid down."""
    counts = Counter(item.part.name for item in sheet.placed)
    return list({item.part.name: (item.part, counts[item.part.name]) for item in sheet.placed}.values())


def _on(part: Part, count: int, told: Collection[str]) -> JigUse:
    """What it is for is no matter at the cutter; how it is made is, unless that is told elsewhere."""
    quiet = part.name in told or bool(part.piece_of)
    return JigUse(part.name, count, "", () if quiet else part.making)


def _cut(job: str, id: str, what: str, sheet: Sheet, jigs: tuple[JigUse, ...]) -> Operation:
    tabbed = what == "sheet"
    pieces = len(sheet.placed)
    other = sheet.offcut and sheet.thickness != sheet.placed[0].part.thickness
    return Operation(
        id=f"{ID}.{id}",
        place="cutter",
        does=f"Cut {of_job(job, sheet.file)}.",
        how=(
            "Hold the sheet down flat; corners that stand up are out of size.",
            "Cut the drawing at full size: engraved lines first, holes next, outlines last.",
            *((ROUTED,) if tabbed else ()),
            *((OTHER,) if other else ()),
            PEN,
        ),
        makes=(pieces, "part"),
        settings=(
            Quantity("of", "Cut from", "an offcut" if sheet.offcut else what, "text"),
            calliper("thickness", "Thickness", sheet.thickness),
            ruled("across", "Sheet, across", sheet.size[0]),
            ruled("deep", "Sheet, deep", sheet.size[1]),
        ),
        jigs=jigs,
        trial="a slot and a tab in scrap of the same sheet" if tabbed else "",
        checks=(FITS if tabbed else THICK,),
        cautions=("laser", "router"),
        minutes=each(pieces, MARKING, SETTING),
        figure=f"sheet.{sheet.name}",
        uses_up=of_sheets([sheet]),
    )


def _by_hand(parts: Sequence[Part], later: frozenset[str], drawings: str) -> Iterator[Operation]:
    if not parts:
        return
    yield Operation(
        id=f"{ID}.large",
        place="bandsaw",
        does="Saw out by hand what is larger than the cutter's bed.",
        how=(
            f"Print its pages of {drawings} at 100 %, join them cross over cross, and glue them on.",
            "Saw a little outside the line; plane or sand to it.",
            "Bore the round holes; saw slots from a hole bored in them, and pare them to the line.",
        ),
        makes=(sum(part.quantity for part in parts), "part"),
        settings=tuple(ruled(f"thickness.{part.name}", part.code, part.thickness) for part in parts),
        jigs=made(parts, later),
        checks=(FITS,),
        cautions=("bandsaw",),
        minutes=each(sum(part.quantity for part in parts), 10 * CROSSCUT, SETTING),
        uses_up=cut_singly(parts),
    )


def _strips(parts: Sequence[Part], later: frozenset[str]) -> Iterator[Operation]:
    """Each from its own strip of solid wood, with its drawing for the holes."""
    if not parts:
        return
    yield at_table_saw(
        id=f"{ID}.strips",
        does="Make the strips of hardwood.",
        how=(
            "Plane straight-grained hardwood to the thickness, longer than the longest strip.",
            "Rip each strip to its width, then cut it to length.",
            "Mark holes and shaped edges from its drawing; bore and saw them.",
            "Write each strip's code on it.",
        ),
        makes=(sum(part.quantity for part in parts), "part"),
        settings=tuple(size for part in parts for size in _strip(part)),
        jigs=made(parts, later),
        checks=(THICK,),
        cautions=("table-saw", "table-saw.rip", "planer"),
        minutes=each(sum(part.quantity for part in parts), 4 * CROSSCUT, SETTING),
        uses_up=cut_singly(parts),
    )


def _strip(part: Part) -> tuple[Quantity, ...]:
    x0, y0, x1, y1 = part.outline.bounds
    width, length = sorted((x1 - x0, y1 - y0))
    return (
        calliper(f"thickness.{part.name}", f"{part.code}, thick", part.thickness),
        calliper(f"width.{part.name}", f"{part.code}, wide", width),
        ruled(f"length.{part.name}", f"{part.code}, long", length),
    )


def _paper(parts: Sequence[Part], later: frozenset[str], job: Job) -> list[Operation]:
    """So many to a step."""
    return [
        at_bench(
            id=f"{ID}.paper{end}",
            does="Print the paper drawings and saw out what is on them.",
            how=(
                f"Print their pages of {of_job(job.name, FULL_SIZE)} at 100 %, no fitting to the page.",
                "Measure both proof lines on each sheet before you glue it down.",
                "Glue each drawing flat on wood of the kind and thickness that the first page lists.",
                "Saw a little outside the line; plane or sand to it. Nothing allows for the saw's cut.",
                "Bore the round holes before you saw the outline.",
            ),
            makes=(sum(part.quantity for part in page), "part"),
            jigs=made(page, later),
            checks=right_if(
                "scale",
                "Rule on both proof lines",
                (ruled("proof-line", "Each, long", parse_length(PROOF_LINE[job.unit], job.unit)),),
                "set the printer to 100 % and print it again",
            ),
            cautions=("bandsaw", "hand-saw"),
            minutes=each(sum(part.quantity for part in page), 8 * CROSSCUT, SETTING),
            uses_up=paper_boards(page),
        )
        for end, page in by_page(parts)
    ]


def _join(plan: Plan, parts: Sequence[Part]) -> Iterator[Operation]:
    """Pieces of parts that were longer than their bed, printed or cut."""
    pieces = [part for part in parts if part.piece_of]
    if not pieces:
        return
    yield at_bench(
        id=f"{ID}.join",
        does="Join what came in pieces, its edge straight through.",
        how=(
            "Lay the pieces on a flat board and drop each key into its socket from above.",
            "Push the two faces together and slide until no fingernail feels the joint in the working edge.",
            "Glue, and leave it on the board until dry.",
        ),
        jigs=builds(pieces),
        checks=right_if(
            "edge",
            "Fingernail along the working edge: it does not catch",
            if_not="warm or split the joint and glue it again",
        ),
        cautions=("bench",),
        minutes=each(len(pieces), FITTED, CHECKED),
        hours=plan.wood.glue.clamp_time,
    )


STAGE: Stage[Plan] = Stage(ID, "Cut out the parts", operations, sort="making", in_a_run=True)
