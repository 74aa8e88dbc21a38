"""Wedge rings to quarters, to halves, to the closed blank: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plan.torus import TorusPlan
from jigs.plan.wood.glue import GlueStage
from jigs.quantity import Quantity, calliper, ruled
from jigs.stages.glue_up.truing import check_quarters, true_halves
from jigs.work.glue import glue_up, stages_of
from jigs.work.minutes import CHECKED, MARKING, SANDED, each
from jigs.work.model import Check, Operation, Stage
from jigs.work.rack import Rack, uses
from jigs.work.steps import nth

ID = "glue_up"
ENDS = {"torus": "blank", "halves": "halves", "quarters": "quarters"}
DOES = {
    "blank": "Glue the two halves into the closed blank.",
    "halves": "Glue the {before} into two halves.",
    "quarters": "Glue the {before} into quarters.",
}


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Faces sanded, closed dry, glued in stages with blocks and checks between, blocks off, cured."""
    return [_faces(plan), _row(plan), *_glued(plan, rack), _clear(plan), _cure(plan)]


def _faces(plan: TorusPlan) -> Operation:
    count = plan.blank.wedge_rings
    return Operation(
        f"{ID}.faces",
        ID,
        "bench",
        "Sand both faces of each wedge ring flat for the glue.",
        how=(
            "Scribble pencil over the face and rub it on abrasive on a flat board.",
            "Press in the middle; stop as soon as the pencil is gone.",
            "Leave the faces marked END for the truing carrier."
            if plan.job.form.half_sanding > 0
            else "Count strokes.",
        ),
        pieces=count,
        comes="wedge ring",
        rings=tuple(range(1, count + 1)),
        settings=(calliper("sanding", "Sand off each face", plan.job.form.face_sanding),),
        checks=(
            Check(
                "two",
                "Two rings face to face against a window: no light",
                if_not="rub again; a face that is rounded over opens at its edges",
            ),
        ),
        cautions=("sander",),
        minutes=each(2 * count, 2 * SANDED, 5),
    )


def _row(plan: TorusPlan) -> Operation:
    count = plan.blank.wedge_rings
    whole = plan.wood.glue.band(None)
    return Operation(
        f"{ID}.dry",
        ID,
        "bench",
        "Close the whole torus dry in its band, the rings in their order.",
        how=(
            "Lay the rings round by their labels: face 2 of each at face 1 of the next.",
            "Tighten the band by hand, turn the torus over, and look at every joint.",
            "Pencil a line across every joint.",
        ),
        pieces=count,
        comes="wedge ring",
        rings=tuple(range(1, count + 1)),
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
        ),
        minutes=each(count, MARKING, CHECKED),
    )


def _blocks(plan: TorusPlan, rack: Rack) -> Operation:
    blocks = rack.of("clamping")
    joints = sum(part.quantity // part.stack for part in blocks)
    return Operation(
        f"{ID}.blocks",
        ID,
        "bench",
        "Stick the clamp blocks on beside the joints that clamps close, paper in the glue.",
        how=(
            "Stick them above and below at both ends of each piece, their JOINT edge along the joint.",
            *(("Stick one on the rim on both sides of the joint too.",) if not plan.blank.arris_out else ()),
            "Turn every second one over: it is the mirror image for the other side of the joint.",
        ),
        pieces=joints,
        comes="block",
        settings=(
            ruled("set-back", "Block to joint", plan.clamping.set_back),
            ruled("pull", "Clamps on the flats, from the axis of the torus", plan.clamping.pull_radius),
        ),
        jigs=uses(blocks, notes=True),
        checks=(
            Check(
                "pull",
                "Dry, clamps on: the joint stays closed all round",
                if_not="opens on one side: move that clamp towards the middle of the joint",
            ),
        ),
        cautions=("bench",),
        minutes=each(joints, 2 * MARKING),
        hours=plan.wood.glue.clamp_time,
    )


def _glued(plan: TorusPlan, rack: Rack) -> Iterator[Operation]:
    before, arcs, blocked = "wedge rings", 0, False
    for stage in stages_of(plan, "torus"):
        id = ENDS.get(stage.what, "arcs")
        arcs += id == "arcs"
        if _clamped(plan, id) and not blocked:
            yield _blocks(plan, rack)
            blocked = True
        if id == "blank":
            yield from true_halves(plan, rack, ID)
        yield _stage(plan, stage, before, id, nth(arcs) if id == "arcs" else "")
        if id == "quarters":
            yield from check_quarters(plan, stage, rack, ID)
        before = stage.what


def _clamped(plan: TorusPlan, id: str) -> bool:
    """Whether clamps close its joints; a band closes the others."""
    quartered = any(stage.what == "quarters" for stage in stages_of(plan, "torus"))
    return id == "blank" or (id == "halves" and quartered)


BANDED = (
    "Close the whole torus in its band, waxed paper in the joints that stay dry.",
    "Look from above and along the rim: the pencil lines meet.",
)
CLAMPED = (
    "Set the two clamps on the flats first, both to the same pull, then the rim's, lightly.",
    "Look from above and along the rim: the pencil lines meet.",
)
TURNED = "Lay one half on a waxed board, the other against it; glue goes on both ends."


def _stage(plan: TorusPlan, stage: GlueStage, before: str, id: str, number: str) -> Operation:
    band, clamped = plan.wood.glue.band(None), _clamped(plan, id)
    settings = (
        ruled("pull", "Clamps on the flats, from the axis of the torus", plan.clamping.pull_radius)
        if clamped
        else ruled("band", "Band for the whole blank, with its overlap", band.length)
    )
    return glue_up(
        plan,
        stage,
        ID,
        f"{id}{number}",
        DOES.get(id, "Glue the {before} in short arcs.").format(before=before),
        {"blank": "blank", "halves": "half", "quarters": "quarter"}.get(id, "arc"),
        how=(
            "Work by the labels: face 2 of each ring at face 1 of the next.",
            *((TURNED,) if id == "blank" else ()),
            "Spread both faces thinly, to the very edges and round the core.",
            *(CLAMPED if clamped else BANDED),
            "Wipe the core with a rag on a stick before the glue sets.",
        ),
        settings=(settings,),
    )


def _clear(plan: TorusPlan) -> Operation:
    return Operation(
        f"{ID}.clear",
        ID,
        "bench",
        "Saw the clamp blocks off on their waste side.",
        how=(
            "Clamp the blank flat on the bench; saw beside the wood, not in it.",
            "Saw the rim's blocks along their marked line."
            if not plan.blank.arris_out
            else "Split off what is left.",
            "Leave no block on: it would swing past the board.",
        ),
        checks=(
            Check(
                "clean",
                "Nothing stands over the blank's flats",
                if_not="plane or sand it off, flush with the flat",
            ),
        ),
        cautions=("hand-saw",),
        minutes=each(2 * plan.blank.wedge_rings, MARKING),
    )


def _cure(plan: TorusPlan) -> Operation:
    return Operation(
        f"{ID}.cure",
        ID,
        "bench",
        "Let the blank cure, then tap every joint and look at it.",
        how=(
            "Lay it flat, air all round it.",
            "Tap beside each joint with a stick and listen: a dull joint is open inside.",
        ),
        settings=(Quantity("cure", "Cure, before it turns", plan.wood.glue.cure, "hours"),),
        checks=(
            Check(
                "joints",
                "Every joint rings, none shows a line of light or a gap",
                if_not="saw the blank open at that joint, true both faces and glue it again; never turn it",
            ),
        ),
        minutes=each(plan.blank.wedge_rings, MARKING),
        hours=plan.wood.glue.cure,
    )


STAGE: Stage[TorusPlan] = Stage(ID, "Glue up the blank", operations)
