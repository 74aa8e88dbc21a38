"""A layup's steps, in the order of the work."""

from __future__ import annotations

from math import degrees

from jigs.families.labels import SAW_NOTES
from jigs.job import Job
from jigs.lengths import show_length
from jigs.plan.layup.layup import LayupPlan
from jigs.words.sections import Row, Section

TAIL = 300.0  # mm: shorter pieces are not held by hand. Common practice
CAUTIONS = (
    *SAW_NOTES,
    "Strips, slabs and pieces under 300 mm are never held by hand: hold-down on the sled, and a push block that is "
    "longer than the piece.",
    "Power off before offcuts are taken from the sled or the pin is moved.",
    "Layups are large faces: count the minutes by area, one sheet or one stack at a time where the open time is short.",
    "Glue: as its maker says, gloves on; let stacks cure before they are sawn, wet glue grips the blade.",
    "Dust of plies and glue: extraction and a mask (EN 149 FFP3) at saw and abrasive.",
)


def steps_section(job: Job, layup: LayupPlan, of: str, cautions: bool) -> Section:
    """From the sheet to the segment; the cautions where they are not told beside it."""
    texts = [*_strips(job, layup), *_stacks(job, layup), *_slabs(job, layup), *_pieces(job, layup)]
    texts += _segments(job, layup)
    rows = (Row(f"{number}. {name}", text, "text") for number, (name, text) in enumerate(texts, 1))
    return Section(f"{of}: steps", tuple(rows), CAUTIONS if cautions else ())


def _strips(job: Job, layup: LayupPlan) -> list[tuple[str, str]]:
    way, unit = layup.way, job.unit
    wide, planed = (show_length(mm, unit) for mm in (layup.strip_width, layup.layup.depth))
    return [
        ("mark the sheets", "the same face of every sheet, and with it the order of its plies"),
        (
            "rip strips",
            f"{way.strips_in_all}, {wide} wide, planed to {planed}; then to {show_length(way.strip_length, unit)} long",
        ),
    ]


def _stacks(job: Job, layup: LayupPlan) -> list[tuple[str, str]]:
    way, glue = layup.way, job.workshop.glue
    ends = (
        f"each set back by {show_length(way.stagger, job.unit)} on the one below"
        if way.stagger
        else "ends flush"
    )
    goes = (
        f"; each in {layup.stack_goes} goes of at most {layup.batch} joints" if layup.stack_goes > 1 else ""
    )
    if way.strips == 1:
        return [("stacks", "none: a single strip is high enough")]
    return [
        (
            "glue stacks",
            f"{way.stacks} of {way.strips} strips, marked faces all down, {ends}, between straight battens{goes}; "
            f"{glue.clamp_time:g} h in clamps",
        )
    ]


def _slabs(job: Job, layup: LayupPlan) -> list[tuple[str, str]]:
    way, unit = layup.way, job.unit
    side = "b" if way.cut == "a" else "a"
    slab, pitch, high = (show_length(mm, unit) for mm in (way.slab, way.pitch, layup.saw_height))
    return [
        (
            "set the sled",
            f"table saw: cuts at {degrees(way.cut_angle):.2f}° to the plies; it has to give {high}",
        ),
        ("test cut in scrap", f"two cuts; a slab is {slab} thick (side {side}), its cuts parallel"),
        ("set the index pin", f"{pitch} along the stack from cut to cut"),
        ("saw slabs", f"{way.pieces} from each stack, {way.pieces + 1} cuts; {_first_cut(job, layup)}"),
        (
            "check",
            "two slabs, one turned over about its length so that the faces sawn first come together: plies meet all "
            "along. Mark the corner of each that stood on the stack's foot",
        ),
    ]


def _first_cut(job: Job, layup: LayupPlan) -> str:
    """Where the row of pieces begins; the steps of a staggered stack lie along the first cut."""
    if layup.way.stagger:
        return "the first just cleans the steps off the leaning end"
    foot = show_length(layup.way.foot, job.unit)
    return f"the one through the first piece's lowest corner meets the stack's foot {foot} from the end"


def _pieces(job: Job, layup: LayupPlan) -> list[tuple[str, str]]:
    way, unit = layup.way, job.unit
    steps = [
        (
            "trim square",
            f"to {show_length(way.slab_length, unit)} (side {way.cut}), the marked end, that of "
            f"{layup.names[0]}, first; {layup.pieces + layup.spares} pieces",
        )
    ]
    if layup.per_segment == 1:
        return steps
    halves = "in pairs, then the pairs" if layup.per_segment == 4 else "in pairs"
    finished = " and ".join(show_length(mm, unit) for mm in _finished(layup))
    return [
        *steps,
        (
            "sand to the witness line",
            f"the faces that are glued, {show_length(layup.sanding, unit)} off each, to {finished}",
        ),
        (
            "turn over and glue",
            f"{halves}, {layup.turned_over} of {layup.per_segment} turned over, {_marked(layup)}; "
            f"{layup.mirror_joints} joints in {layup.mirror_goes} goes of at most {layup.batch}",
        ),
    ]


def _finished(layup: LayupPlan) -> list[float]:
    """The sides that lose a glued face."""
    sides = ((layup.layup.a, layup.across), (layup.layup.b, layup.up))
    return [sanded for cut, sanded in sides if sanded < cut]


def _marked(layup: LayupPlan) -> str:
    """Where the corners that stood on the stack's foot lie in the segment."""
    across = layup.mirrored in ("left and right", "both")
    if layup.mirrored == "both":
        return "marked corners at the mitres" if layup.turned else "marked corners together in the middle"
    if across:
        return (
            "marked corners at the mitres, on one edge"
            if layup.turned
            else "marked corners at the seam, on one edge"
        )
    return (
        "marked corners at the seam, on the other end"
        if layup.turned
        else "marked corners at the seam, on one end"
    )


def _segments(job: Job, layup: LayupPlan) -> list[tuple[str, str]]:
    count = layup.segments + layup.spare_segments
    hands = ""
    if layup.seams.other_hand:
        hands = (
            f"; first mark {layup.seams.other_hand} of the {layup.segments} as the other hand and turn them over, and "
            "the same share of the spares"
        )
    tail = show_length(TAIL, job.unit)
    steps = [
        (
            "glue tails",
            "a block is too short for the hold-down: to one end of each, over the whole end, goes a tail of scrap as "
            f"wide and as deep as the block, at least {tail} long, its grain along it; size the ends first, let the "
            "joint cure a day, tap it. Across the joint, on the inner side, a backer of scrap as long as the block, so "
            "that the hold-down bears on block and tail; block and tail are a strip for one segment, the block's other "
            "end free. A tail sawn off is squared and used again while it is long enough",
        ),
        (
            "saw the mitres",
            f"of {count} segments, as for strips, the outer side marked{hands}: the block's free end first, where the "
            "cut just meets the corner of its outer side; then that mitred end at the stop, hold-downs on block and "
            "tail, the stop swung clear, and the cut parts it from the tail",
        ),
    ]
    if layup.alternate_segments or layup.alternate_rings:
        each = [
            text
            for text, yes in (
                ("every other segment of a ring", layup.alternate_segments),
                ("every other ring", layup.alternate_rings),
            )
            if yes
        ]
        steps.append(
            ("glue rings", f"{' and '.join(each)} the mirror image: look that plies meet before gluing")
        )
    return steps
