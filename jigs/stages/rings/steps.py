"""Segments glued to rings, these flattened: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plans.torus import TorusPlan
from jigs.stages.boards.runs import segments_sawn
from jigs.stages.glue_up import rings
from jigs.stages.glue_up.operation import glue_up, stages_of
from jigs.stages.glue_up.plan import GlueStage
from jigs.words.file_names import TAPES, of_job
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import CHECKED, DRY_RUN, FLATTENED, MARKING, SANDED, each
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_bench, right_if
from jigs.work.steps import FLAT, flattened, nth
from jigs.work.supplies import trials_glued

ID = "rings"


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Ends sanded, rings laid out dry, glued in stages, halves trued in between, rings flattened."""
    return [*_sand(plan), _lay_out(plan), *_glued(plan), *_scrap(plan), *_trim(plan), _flatten(plan)]


def _made(plan: TorusPlan) -> int:
    """Rings that are still to be made, whole spare ones among them."""
    return len(plan.left) + len(plan.spare_rings)


def _sand(plan: TorusPlan) -> Iterator[Operation]:
    """Segments that have nothing to sand off are glued as they leave the saw."""
    segments = segments_sawn(plan)
    if not plan.job.form.joint_sanding:
        return
    yield at_bench(
        f"{ID}.sand",
        "Sand both ends of each segment flat for the glue.",
        how=(
            "Glue 120 grit abrasive to a flat board, with a fence square to it.",
            "Rub each end with even strokes along the fence; count them, the same for every end.",
            "Stop when the saw's marks are gone; more makes the ring smaller.",
        ),
        makes=(segments, "segment"),
        rings=plan.left,
        settings=(calliper("sanding", "Sand off each end of a segment", plan.job.form.joint_sanding),),
        checks=right_if(
            "edge",
            "Calliper over the outer edge",
            (calliper("outer-edge", "Outer edge as glued", plan.blank.outer_edge),),
            "too long: a few more strokes",
        ),
        cautions=("bench",),
        minutes=each(2 * segments, SANDED, 5),
    )


def _lay_out(plan: TorusPlan) -> Operation:
    return at_bench(
        f"{ID}.lay-out",
        "Lay out every ring on its tape sheet, tape it, and roll it up dry.",
        how=(
            f"Print the tape sheets ({of_job(plan.job.name, TAPES)}) at 100 %.",
            *rings.TAPED,
            *_mirrored(plan),
            *((rings.SLIPPED_DRY,) if plan.blank.spacer else ()),
            "Turn the row over, tape down; roll it up, tape outside, and close it dry in a band.",
            "Pencil a line across every joint and the ring's number on its outer side.",
        ),
        makes=(_made(plan), "ring"),
        rings=plan.left,
        settings=_band(plan),
        checks=right_if(
            "dry",
            "Hold each ring to a window: no light at any joint",
            if_not="all joints open at the outside: tilt the blade more; one joint: sand or change that segment",
        ),
        minutes=each(_made(plan), CHECKED + MARKING),
    )


def _mirrored(plan: TorusPlan) -> tuple[str, ...]:
    """Where plies meet only so."""
    who = [
        text
        for text, yes in (
            ("every other segment", any(layup.seams.alternate_segments for layup in plan.layups)),
            ("every other ring", any(layup.seams.alternate_rings for layup in plan.layups)),
        )
        if yes
    ]
    if not who:
        return ()
    return (f"Take {' and '.join(who)} as the mirror image, and see that the plies meet.",)


def _band(plan: TorusPlan) -> tuple[Quantity, ...]:
    band = plan.wood.glue.band(1)
    return (
        ruled("around", "Round one ring", band.around),
        ruled("band", "Band for a ring, with its overlap", band.length),
    )


def _glued(plan: TorusPlan) -> Iterator[Operation]:
    before, met = "segments", 0
    for stage in stages_of(plan, "rings"):
        last = stage.what == rings.WHOLE
        met += 0 if last or stage.what == rings.HALVES else 1
        id = "close" if last else "halves" if stage.what == rings.HALVES else f"arcs{nth(met)}"
        yield _stage(plan, stage, before, id)
        if stage.what == rings.HALVES:
            yield _true(stage)
        before = stage.what


def _stage(plan: TorusPlan, stage: GlueStage, before: str, id: str) -> Operation:
    does = {
        "close": f"Glue the {before} into whole rings.",
        "halves": f"Glue the {before} into half rings.",
    }.get(id, f"Glue the {before} in short arcs.")
    comes = {"close": "ring", "halves": "half ring"}.get(id, "arc")
    return glue_up(
        plan,
        stage,
        ID,
        id,
        does,
        comes,
        how=(
            *((rings.END_GRAIN,) if rings.drinks(plan) else ()),
            *((rings.SLIPPED,) if plan.blank.spacer and before == "segments" else ()),
            *(
                ("Spread glue on both ends of each joint, roll the ring up, close the band by hand.",)
                if id == "close"
                else rings.arcs_closed(
                    stage, comes, plan.blank.segments, bool(plan.blank.spacer) and before == "segments"
                )
            ),
            "Press both faces flat with waxed blocks while the band is still loose, then tighten it.",
            rings.wiped("core", before == "segments"),
        ),
        settings=_band(plan),
    )


def _true(stage: GlueStage) -> Operation:
    return at_bench(
        f"{ID}.true",
        "Sand both ends of each half ring into one plane.",
        how=(
            "Scribble pencil over both ends.",
            "Rub both ends at once on abrasive glued to a flat board, the half ring upright.",
            "Press evenly until the pencil is gone from both ends.",
            "Stop there: what comes off both halves, the ring loses across the flats midway between these joints.",
        ),
        makes=(stage.count, "half ring"),
        rings=stage.rings,
        checks=right_if(
            "meet",
            "Two halves of a ring pressed together by hand: no light at either joint",
            if_not="light at the outside: sand the inner edges more; at the core: the outer edges",
        ),
        cautions=("bench",),
        minutes=each(stage.count, 4 * SANDED),
    )


SLIPS_TOO = (
    "Put slips between their segments too, and trim them flush: they are counted among the spare ones."
)
LAST = (
    "The ring of the first trial is one more: write LAST on it. It stays uncut until the end wedge is tried."
)


def _scrap(plan: TorusPlan) -> Iterator[Operation]:
    for scrap in plan.wood.scraps:
        if scrap.of == "quarter":
            yield at_bench(
                f"{ID}.scrap",
                "Glue the scrap rings, on which the wedge cuts are tried, as you glued the good ones.",
                how=(
                    "They need not be pretty, but closed.",
                    *((SLIPS_TOO,) if plan.blank.spacer else ()),
                    "Flatten them with the others, to the same thickness.",
                    "Pencil 1 and 2 on their faces.",
                    *((LAST,) if plan.job.form.end_spare else ()),
                ),
                makes=(scrap.count, "scrap ring"),
                settings=(
                    Quantity("rings", "Scrap rings", scrap.count, "count"),
                    Quantity("segments", "Segments in each", scrap.segments, "count"),
                ),
                checks=right_if(
                    "closed", "Every joint is closed", if_not="make another; it would break on the saw"
                ),
                cautions=("bench",),
                minutes=each(scrap.count, DRY_RUN + FLATTENED),
                hours=plan.wood.glue.clamp_time,
                uses_up=trials_glued(plan, scrap.count + bool(plan.job.form.end_spare)),
            )


def _trim(plan: TorusPlan) -> Iterator[Operation]:
    """A ring stands on its flats at the saw, and a slip that is proud of them rocks it."""
    if plan.blank.spacer:
        yield at_bench(
            f"{ID}.trim",
            "Trim the slips flush with the flats, in the core and outside.",
            how=(
                "Saw off in the core what stands out far, with a fine saw from both faces, the ring clamped.",
                "Pare what is left with a sharp chisel from both faces, towards the middle.",
                "Outside rub each flat a few strokes on abrasive glued to a flat board; do not round its corners.",
            ),
            makes=(_made(plan), "ring"),
            rings=plan.left,
            checks=(
                Check(
                    "flush",
                    "Straight edge along each outer flat, over both of its joints: no light, and it does not rock",
                    if_not="rub that flat again; a ring that rocks on its flat is sawn at a wrong angle",
                ),
                Check(
                    "core",
                    "A rule through the core along each of its flats: nothing stands out",
                    if_not="pare it; the plug of the sled's draw rod needs the core clear",
                ),
            ),
            cautions=("hand-saw", "chisel", "bench"),
            minutes=each(_made(plan) * plan.blank.segments, CHECKED / 2),
        )


def _flatten(plan: TorusPlan) -> Operation:
    thickness = calliper("thickness", "Thickness", plan.ring_cut.ring_thickness)
    return flattened(
        ID,
        "flatten",
        "Flatten both faces of every ring, the second parallel to the first.",
        (_made(plan), "ring"),
        plan.left,
        plan.job.form.flattening,
        (),
        (
            Check("flat", FLAT, if_not="rub again; a ring that rocks is sawn at a wrong angle"),
            Check(
                "thickness",
                "Calliper over the thickness at four places",
                (thickness,),
                "over: rub again; a little under does no harm, for the wedge cuts set the size",
            ),
            *_across(plan),
        ),
        readings=(Reading("thickness", "Thickness, at four places", thickness, 4),),
    )


def _across(plan: TorusPlan) -> Iterator[Check]:
    """An odd count has no two flats that face each other."""
    if plan.blank.segments % 2 == 0:
        yield Check(
            "across",
            "Calliper across each pair of opposite flats",
            (calliper("across-flats", "Across the flats", 2 * plan.blank.apothem),),
            "under: the turning allowance is less by as much at the hole, the stop holding the outer flat",
        )


STAGE: Stage[TorusPlan] = Stage(ID, "Glue the rings", operations)
