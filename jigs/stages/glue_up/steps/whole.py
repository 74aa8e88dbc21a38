"""Wedge rings to quarters, to halves, to the closed blank: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.measured.planned import end_more
from jigs.plans.torus import TorusPlan
from jigs.stages.glue_up.operation import glue_up, stages_of
from jigs.stages.glue_up.parts import clamping, truing
from jigs.stages.glue_up.plan import GlueStage
from jigs.stages.glue_up.steps.truing import check_quarters, true_halves
from jigs.stages.glue_up.tables import tables
from jigs.stages.grain.tables import tables as grain
from jigs.words.quantity import Quantity, calliper, ring_list, ruled
from jigs.work.minutes import CHECKED, MARKING, SANDED, each
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_bench, right_if, uses
from jigs.work.steps import nth

ID = "glue_up"
ENDS = {"torus": "blank", "halves": "halves", "quarters": "quarters"}
PIECES = {"quarter": "quarters", "half": "halves"}
DOES = {
    "blank": "Glue the two halves into the closed blank.",
    "halves": "Glue the {before} into {halves}.",
    "quarters": "Glue the {before} into quarters.",
}


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Faces sanded, closed dry, glued in stages with blocks and checks between, blocks off, cured."""
    return [_faces(plan), _row(plan), *_glued(plan, rack), _cure(plan)]


def _faces(plan: TorusPlan) -> Operation:
    """Faces that have nothing to sand off are glued as they leave the saw."""
    count, left, sanding = plan.blank.wedge_rings, len(plan.left), plan.job.form.face_sanding
    return at_bench(
        f"{ID}.faces",
        "Sand both faces of each wedge ring flat for the glue."
        if sanding
        else "Measure each wedge ring; its faces are glued as they leave the saw.",
        how=(
            "Scribble pencil over the face and rub it on abrasive on a flat board.",
            "Press in the middle; stop as soon as the pencil is gone.",
            "Leave the faces marked END for the truing carrier."
            if plan.job.form.half_sanding > 0
            else "Count strokes.",
        )
        if sanding
        else ("Sand none of them: their sizes leave nothing for it.",),
        makes=(left, "wedge ring"),
        rings=plan.left,
        settings=(calliper("sanding", "Sand off each face", sanding),) if sanding else (),
        known=_end_rings(plan),
        checks=right_if(
            "two",
            "Two rings face to face against a window: no light",
            if_not="rub again; a face that is rounded over opens at its edges"
            if sanding
            else "cut that ring again from a spare one",
        ),
        cautions=("sander",) if sanding else (),
        readings=(
            Reading("thick", "Thick edge of each ring as sanded, ring 1 first", _thick(plan), count),
            Reading("flats", "Across the flats of each ring, ring 1 first", _flats(plan), count),
        ),
        minutes=each(2 * left, 2 * SANDED, 5),
    )


def _end_rings(plan: TorusPlan) -> tuple[Quantity, ...]:
    if plan.job.form.half_sanding == 0 or not plan.half_ends:
        return ()
    label = f"{ring_list(sorted(plan.half_ends)).capitalize()}: thick edge longer than the others' by"
    return (calliper("ends", label, end_more(plan.job, plan.blank)),)


def _thick(plan: TorusPlan) -> Quantity:
    return calliper("planned", "", plan.blank.thick_edge)


def _flats(plan: TorusPlan) -> Quantity:
    return calliper("planned", "", 2 * plan.blank.apothem)


def _row(plan: TorusPlan) -> Operation:
    count = plan.blank.wedge_rings
    whole = plan.wood.glue.band(None)
    return at_bench(
        f"{ID}.dry",
        "Close the whole torus dry in its band, the rings in their order.",
        how=(
            "Lay the rings round by their labels: face 2 of each at face 1 of the next.",
            *_there(plan),
            *((STRIP_DRY,) if plan.blank.ring_spacer else ()),
            "Tighten the band by hand, turn the torus over, and look at every joint.",
            "Pencil a line across every joint.",
        ),
        makes=(count, "wedge ring"),
        rings=tuple(range(1, count + 1)),
        figure=f"{ID}.quarters" if _quartered(plan) else f"{ID}.halves",
        settings=(
            ruled("around", "Round the whole blank", whole.around),
            ruled("band", "Band for the whole blank, with its overlap", whole.length),
        ),
        checks=(
            Check(
                "joints",
                "No light at any joint but the two between the halves",
                if_not="swap rings of the same woods that err apart, or cut a spare ring",
            ),
            Check(
                "steps",
                "Rule along the flats, across each joint: no step as high as this",
                (calliper("step", "Step, less than", plan.errors.most_step, bound="most"),),
                "one ring steps: shift it, or cut a spare ring; all step: prove the fence and the blade's lean",
            ),
        ),
        minutes=each(count, MARKING, CHECKED),
    )


def _there(plan: TorusPlan) -> tuple[str, ...]:
    """What is glued already, among what is still to be closed."""
    if plan.half_glued:
        return ("The half that is glued already lies among them whole.",)
    count = plan.blank.wedge_rings
    glued = [*range(len(plan.left) + 1, count + 1)]
    if not glued:
        return ()
    return (
        f"{ring_list(glued).capitalize()}: there already. Where they are glued to one another, go on from there.",
        *(
            (
                "Never glue more than a half together: only halves and less are trued.",
                f"A larger piece: saw it apart at the joint of rings {count // 2} and {count // 2 + 1} by a fine saw. "
                "What sawing and truing take off there comes off the turning allowance.",
            )
            if 2 * len(glued) > count
            else ()
        ),
    )


def _in_use(plan: TorusPlan, rack: Rack, of: str) -> int:
    """Blocks that are stuck on at a time: those at two joints, or at one where a half is there already."""
    every = sum(part.quantity // part.stack for part in rack.of("clamping"))
    two = every // 2 if _quartered(plan) else every
    return two // 2 if plan.half_glued and of == "quarter" else two


def _blocks(plan: TorusPlan, rack: Rack, of: str) -> Operation:
    """On quarters before they are halves, on halves when they are trued: a block would lie under them before."""
    blocks, count = rack.of("clamping"), _in_use(plan, rack, of)
    where = (
        "at the end of each quarter that is glued next" if of == "quarter" else "at both ends of each half"
    )
    return at_bench(
        f"{ID}.blocks" + ("-quarters" if of == "quarter" else ""),
        f"Stick the clamp blocks on the {PIECES[of]} with plain glue; they are sawn off again.",
        how=(
            f"Stick them above and below {where}, their JOINT edge along the joint.",
            *(("Stick one on the rim there too.",) if not plan.blank.arris_out else ()),
            "Turn every second one over: it is the mirror image for the other side of the joint.",
        ),
        makes=(count, "block"),
        settings=(
            ruled("set-back", "Block to joint", plan.clamping.set_back),
            ruled("pull", "Clamps on the flats, from the axis of the torus", plan.clamping.pull_from_axis),
        ),
        jigs=uses(blocks, notes=of == "half"),
        checks=right_if(
            "pull",
            "Dry, clamps on as tight as for the glue: the joint stays closed all round, no block tips",
            if_not="opens on one side: move that clamp towards the middle of the joint; a block tips: glue it on "
            "again and pull less",
        ),
        cautions=("bench",),
        minutes=each(count, 2 * MARKING),
        hours=plan.wood.glue.clamp_time,
    )


def _glued(plan: TorusPlan, rack: Rack) -> Iterator[Operation]:
    before, arcs, blocked = "wedge rings", 0, bool(rack.of("clamping"))
    for stage in stages_of(plan, "torus"):
        id = ENDS.get(stage.what, "arcs")
        arcs += id == "arcs"
        if id == "blank":
            yield from true_halves(plan, rack, ID)
        if blocked and _clamped(plan, id):
            yield _blocks(plan, rack, "half" if id == "blank" else "quarter")
        yield _stage(plan, stage, before, id, nth(arcs) if id == "arcs" else "", blocked)
        if blocked and _clamped(plan, id):
            yield _clear(plan, rack, "blank" if id == "blank" else "half")
        if id == "quarters":
            yield from check_quarters(plan, stage, rack, ID)
        before = stage.what


def _clamped(plan: TorusPlan, id: str) -> bool:
    """Whether clamps close its joints; a band closes the others."""
    return plan.clamping.made and (id == "blank" or (id == "halves" and _quartered(plan)))


def _quartered(plan: TorusPlan) -> bool:
    return any(stage.what == "quarters" for stage in stages_of(plan, "torus"))


MEET = "Look from above and along the rim: the pencil lines meet."
TURNED = "Lay both halves on a waxed board, end to end; glue goes on both ends."
RAISED = "Put scrap as high as the blocks under the middle of each, so that it lies level."


STRIP_DRY = (
    "Put a strip between every two rings, dry, its arrow from the rim to the hole, down on the bench and level with "
    "the rim: one that stands out there takes the band's pull off the rings."
)
STRIP = (
    "Put a strip in each joint that you close, its arrow from the rim to the hole, level with the rim and below.",
    "Glue goes on both of its faces as well.",
)
PARED = (
    "saw off what stands out of the strips with a fine saw, and pare it flush with the flats: the next joint's clamps, "
    "the truing carrier and the first board touch them."
)


def _clamps(plan: TorusPlan, banded: bool) -> tuple[str, ...]:
    """The pull tips a block that is higher than long: on a small ring 100 to 500 N, where glue would like 3000."""
    first = "Set the clamps on the flats first, above and below each joint, all alike, their pads low on the blocks."
    then = "tighten the band round the rim, and " if banded else ""
    rim = "" if plan.blank.arris_out else "set the rim's lightly, and "
    return (first, f"Then {rim}{then}stop when glue beads all along the joint: a hard pull tips a block off.")


def _banded(id: str) -> tuple[str, ...]:
    dry = "" if id == "blank" else ", waxed paper in the joints that stay dry"
    return (f"Close the whole torus in its band{dry}.",)


def _stage(plan: TorusPlan, stage: GlueStage, before: str, id: str, number: str, blocked: bool) -> Operation:
    band, clamped = plan.wood.glue.band(None), _clamped(plan, id)
    banded = not clamped or (id == "blank" and plan.blank.arris_out)
    pull = ruled("pull", "Clamps on the flats, from the axis of the torus", plan.clamping.pull_from_axis)
    round_ = ruled("band", "Band for the whole blank, with its overlap", band.length)
    return glue_up(
        plan,
        stage,
        ID,
        f"{id}{number}",
        DOES.get(id, "Glue the {before} in short arcs.").format(
            before=before, halves="the new half" if plan.half_glued else "two halves"
        ),
        {"blank": "blank", "halves": "half", "quarters": "quarter"}.get(id, "arc"),
        how=(
            "Work by the labels: face 2 of each ring at face 1 of the next.",
            *(() if plan.half_glued else _there(plan)),
            *((TURNED,) if id == "blank" else ()),
            *((RAISED,) if blocked and clamped else ()),
            *(STRIP if plan.blank.ring_spacer else ()),
            "Spread both faces thinly, to the very edges and round the core.",
            *(_clamps(plan, banded) if clamped else _banded(id)),
            MEET,
            *_after(plan, blocked and clamped),
        ),
        settings=(*((pull,) if clamped else ()), *((round_,) if banded else ())),
    )


def _after(plan: TorusPlan, between_blocks: bool) -> tuple[str, ...]:
    """Between blocks no saw and no chisel reaches the strips: they are pared once the blocks are off."""
    if not plan.blank.ring_spacer:
        return ("Wipe the core with a rag on a stick before the glue sets.",)
    return () if between_blocks else (f"Once it is dry, {PARED}",)


def _clear(plan: TorusPlan, rack: Rack, of: str) -> Operation:
    whole = of == "blank"
    return at_bench(
        f"{ID}.clear" + ("" if whole else "-halves"),
        "Saw the clamp blocks off on their waste side.",
        how=(
            f"Clamp the {of} flat on the bench; saw beside the wood, not in it.",
            "Saw the rim's blocks along their marked line."
            if not plan.blank.arris_out
            else "Split off what is left.",
            "Leave no block on: it would swing past the board."
            if whole
            else "Leave no block on: the half lies on its flats when its ends are trued.",
            *((f"Then {PARED}",) if plan.blank.ring_spacer else ()),
        ),
        checks=right_if(
            "clean",
            f"Nothing stands over the {of}'s flats",
            if_not="plane or sand it off, flush with the flat",
        ),
        cautions=("hand-saw", "chisel") if plan.blank.ring_spacer else ("hand-saw",),
        minutes=each(_in_use(plan, rack, "half" if whole else "quarter"), 2 * MARKING),
    )


def _cure(plan: TorusPlan) -> Operation:
    return at_bench(
        f"{ID}.cure",
        "Let the blank cure, then tap every joint and look at it.",
        how=(
            "Lay it flat, air all round it.",
            "Tap beside each joint with a stick and listen: a dull joint is open inside.",
        ),
        settings=(Quantity("cure", "Cure, before it turns", plan.wood.glue.cure, "hours"),),
        checks=right_if(
            "joints",
            "Every joint rings, none shows a line of light or a gap",
            if_not="saw the blank open at that joint, true both faces and glue it again; never turn it",
        ),
        minutes=each(plan.blank.wedge_rings, MARKING),
        hours=plan.wood.glue.cure,
    )


STAGE: Stage[TorusPlan] = Stage(
    ID, "Glue up the blank", operations, jigs=(truing, clamping), tables=(grain, tables)
)
