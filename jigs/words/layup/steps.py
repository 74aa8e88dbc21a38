"""A layup's steps, in the order of the work."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees

from geometry.block_rail import WIDTH
from jigs.cautions import CAUTIONS as SAID
from jigs.cautions import SHORT
from jigs.families.labels import SAW_NOTES
from jigs.job import Job, TorusJob
from jigs.lengths import show_length
from jigs.plan.layup.layup import LayupPlan
from jigs.plan.wood.steps import Step, Work
from jigs.words.sections import Row, Section

Told = tuple[Work, str, str]  # the kind of step, what is done, how

CAUTIONS = (
    *SAW_NOTES,
    SAID["table-saw.rip"],
    "Strips, slabs and pieces under {short} are never held by hand: hold-down on the sled, and a push block that is "
    "longer than the piece.",
    "Power off before offcuts are taken from the sled or the pin is moved.",
    "Layups are large faces: one sheet or one stack at a time where the open time is short.",
    "Glue: as its maker says, gloves on; let stacks cure before they are sawn, wet glue grips the blade.",
    "Dust of plies and glue: extraction and a mask (EN 149 FFP3) at saw and abrasive.",
)


def steps_section(job: Job, layup: LayupPlan, of: str, work: Sequence[Step], cautions: bool) -> Section:
    """From the sheet to the segment, under the numbers of the whole work; the cautions where not told beside it."""
    told: list[Told] = [*_strips(job, layup), *_stacks(job, layup), *_slabs(job, layup), *_pieces(job, layup)]
    told += _segments(job, layup)
    rows = (Row(f"{_number(kind, layup, work)}{name}", text, "text") for kind, name, text in told)
    cautioned = tuple(said.format(short=SHORT[job.unit]) for said in CAUTIONS)
    return Section(f"{of}: steps", tuple(rows), cautioned if cautions else ())


def _number(kind: Work, layup: LayupPlan, work: Sequence[Step]) -> str:
    """Of the step that it belongs to; segments of solid wood have their own."""
    kinds = ("mitre", "slide") if kind == "mitre" else (kind,)
    rings = set(layup.rings)
    return next(
        (
            f"{step.number}. "
            for step in work
            if step.work in kinds and rings & set(step.rings) and not (kind == "mitre" and step.lots)
        ),
        "",
    )


def _strips(job: Job, layup: LayupPlan) -> list[Told]:
    way, unit = layup.way, job.unit
    wide, planed = (show_length(mm, unit) for mm in (layup.strip_width, layup.layup.depth))
    return [
        ("strips", "mark the sheets", "the same face of every sheet, and with it the order of its plies"),
        (
            "strips",
            "rip strips",
            f"{way.strips_in_all}, {wide} wide, planed to {planed}; then to {show_length(way.strip_length, unit)} long",
        ),
    ]


def _stacks(job: Job, layup: LayupPlan) -> list[Told]:
    way, glue, tail = layup.way, job.workshop.glue, show_length(layup.way.tail, job.unit)
    ends = (
        f"each set back by {show_length(way.stagger, job.unit)} on the one below"
        if way.stagger
        else "ends flush"
    )
    goes = (
        f"; each in {layup.stack_goes} goes of at most {layup.batch} joints" if layup.stack_goes > 1 else ""
    )
    if way.strips == 1:
        return [("strips", "stacks", "none: a single strip is high enough")]
    return [
        (
            "stacks",
            "glue stacks",
            f"{way.stacks} of {way.strips} strips, marked faces all down, {ends}, between straight battens{goes}; "
            f"{glue.clamp_time:g} h in clamps. When it is dry, scrap of the same section, {tail} long at least, is "
            "glued to the end that is sawn last: the hold-down has nothing else in the last cut",
        )
    ]


def _slabs(job: Job, layup: LayupPlan) -> list[Told]:
    way, unit = layup.way, job.unit
    side = "b" if way.cut == "a" else "a"
    slab, pitch, high = (show_length(mm, unit) for mm in (way.slab, way.pitch, layup.saw_height))
    return [
        (
            "pieces",
            "set the sled",
            f"table saw: cuts at {degrees(way.cut_angle):.2f}° to the plies; blade height needed: {high}",
        ),
        ("pieces", "test cut in scrap", f"two cuts; a slab is {slab} thick (side {side}), its cuts parallel"),
        ("pieces", "set the index pin", f"{pitch} along the stack from cut to cut"),
        (
            "pieces",
            "saw slabs",
            f"{way.pieces} from each stack, {way.pieces + 1} cuts; {_first_cut(job, layup)}",
        ),
        (
            "pieces",
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


def _pieces(job: Job, layup: LayupPlan) -> list[Told]:
    way, unit = layup.way, job.unit
    steps: list[Told] = [
        (
            "pieces",
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
            "blocks",
            "sand to the witness line",
            f"piece by piece the faces that are glued, {show_length(layup.sanding, unit)} off each, to {finished}",
        ),
        (
            "blocks",
            "turn over and glue",
            f"{halves}, {layup.turned_over} of {layup.per_segment} turned over, {_marked(layup)}",
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


def _segments(job: Job, layup: LayupPlan) -> list[Told]:
    steps: list[Told] = [
        ("rails", "glue to rails", _railed(job, layup)),
        ("mitre", "saw the mitres", _mitred(job, layup)),
        (
            "mitre",
            "split off the rail",
            "its rest along the paper with a chisel, the segment clamped down, no hand before the edge",
        ),
    ]
    each = (
        ("every other segment of a ring", layup.alternate_segments),
        ("every other ring", layup.alternate_rings),
    )
    if alternate := [text for text, yes in each if yes]:
        text = f"{' and '.join(alternate)} the mirror image: look that plies meet before gluing"
        steps.append(("rings", "glue rings", text))
    return steps


def _railed(job: Job, layup: LayupPlan) -> str:
    """Blocks are glued to what is turned or flattened away: a ring face on a torus, the inner side on a vessel."""
    rail, unit = layup.rail, job.unit
    block, gap, length, wide, thick, held = (
        show_length(mm, unit) for mm in (rail.block, rail.gap, rail.length, WIDTH, rail.thickness, rail.held)
    )
    side = "one ring face" if isinstance(job, TorusJob) else "their inner sides"
    return (
        f"a block, {block} long, leaves nothing to hold in its last cut: {rail.each} in a row, {gap} apart, go on a "
        f"straight rail of scrap {length} x {wide} x {thick}, {rail.rails} in all, its grain along it, by {side}, "
        f"brown paper in the joint, blocks and rail level on both faces; a gap before the first; behind the last a "
        f"scrap block as thick and wide, {held} long. A day in the clamps and drying before the saw{_handed(layup)}"
    )


def _handed(layup: LayupPlan) -> str:
    if not layup.seams.other_hand:
        return ""
    return (
        f"; {layup.seams.other_hand} of the {layup.segments} segments, and the same share of the spares, are the other "
        "hand: those blocks are turned over before they go on, and marked"
    )


def _mitred(job: Job, layup: LayupPlan) -> str:
    """Two cuts to a block: what is sawn off between two blocks is scrap."""
    if isinstance(job, TorusJob):
        first, then = (
            "outer sides down, the rail at the fence",
            "Turn the rail over, outer sides up, the blocks at the fence",
        )
    else:
        first, then = "the rail at one fence", "Slide across, the outer sides at the other fence"
    return (
        f"of {layup.blocks} segments, block by block. First cut: {first}, the first block's outer corner at the edge "
        f"of the kerf in the base, on the strip's side, hold-down tight. {then}, that mitred end at the stop, "
        "hold-downs tight, the stop swung clear, and the second cut frees the segment. Then the next block"
    )
