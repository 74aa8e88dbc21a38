"""Segments of flat rings sanded, laid out, glued to halves and closed on their boards: the operations."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from geometry.grouping import grouped
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_rings.parts import glue_up_boards, ring_truing
from jigs.stages.glue_up import rings as glued
from jigs.stages.glue_up.operation import DRY_FIT, glue_up, stages_of
from jigs.stages.glue_up.plan import GlueStage
from jigs.words.file_names import TAPES, of_job
from jigs.words.quantity import Quantity, calliper, ring_list, ruled
from jigs.work.minutes import CHECKED, FLATTENED, MARKING, SANDED, each
from jigs.work.model import Once, Operation, Rack, Stage, at_bench, right_if
from jigs.work.steps import nth

ID = "flat_rings"
Rings = tuple[int, ...]
TRUING = ("ring-truing-board", "ring-truing-face", "half-ring-check")


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """For each count of segments; open rings are glued where they stand in the stack."""
    once, met = Once(), Counter[str]()
    return [
        found
        for number, (count, rings) in enumerate(_by_count(plan).items(), 1)
        for found in (
            *_sand(plan, count, rings, nth(number)),
            _lay_out(plan, rings, nth(number), _boards(plan, rack, rings), once),
            *_glued(plan, rings, rack, once, met),
        )
    ]


def _by_count(plan: VesselPlan) -> dict[int, Rings]:
    """Closed rings that are still to be made, by their count of segments."""
    closed = [layer for layer in plan.stack.to_make if layer.kind == "segments"]
    alike = grouped(closed, lambda layer: layer.ring.segments)
    return {count: tuple(layer.number for layer in same) for count, same in alike.items()}


def _count(plan: VesselPlan, rings: Sequence[int]) -> int:
    """Segments of the first of these rings; they are alike."""
    return next(la.ring.segments for la in plan.stack.layers if la.number == rings[0])


def _slips(plan: VesselPlan, rings: Sequence[int]) -> bool:
    return any(la.ring.spacer for la in plan.stack.layers if la.number in rings)


def _bare(plan: VesselPlan, rings: Sequence[int]) -> tuple[str, ...]:
    """Of rings that close over the middle, beside others with strips."""
    bare = [one for one in rings if not _slips(plan, (one,))]
    return (f"Nothing goes between the segments of {ring_list(bare)}.",) if bare else ()


def _boards(plan: VesselPlan, rack: Rack, rings: Sequence[int]) -> list[Part]:
    own = [
        board for board in plan.ring_boards.glue_up
        if any(set(same.rings) & set(rings) for same in board.sizes)
    ]  # fmt: skip
    return [rack.part(f"glue-up-board-{board.number}") for board in own]


def _sand(plan: VesselPlan, count: int, rings: Rings, end: str) -> Iterator[Operation]:
    """Segments that have nothing to sand off are glued as they leave the saw."""
    segments = len(rings) * count
    if not plan.job.rings.joint_sanding:
        return
    yield at_bench(
        f"{ID}.sand{end}",
        f"Sand both ends of each segment flat for the glue, in rings of {count}.",
        how=(
            "Glue 120 grit abrasive to a flat board, with a fence square to it.",
            "Rub each end with even strokes along the fence; count them, the same for every end.",
            "Stop when the saw's marks are gone; more makes the ring smaller.",
            "Keep each ring's segments in a box of their own.",
        ),
        makes=(segments, "segment"),
        rings=rings,
        settings=(calliper("sanding", "Sand off each end of a segment", plan.job.rings.joint_sanding),),
        checks=right_if(
            "flat",
            "Two segments end to end against a window: no light",
            if_not="rub both again, flat on the board",
        ),
        cautions=("bench",),
        minutes=each(2 * segments, SANDED, 5),
    )


def _lay_out(plan: VesselPlan, rings: Rings, end: str, boards: list[Part], once: Once) -> Operation:
    return at_bench(
        f"{ID}.lay-out{end}",
        "Tape each ring's segments in a row on its tape sheet, and lay it out dry.",
        how=(
            f"Print the tape sheets ({of_job(plan.job.name, TAPES)}) at 100 %.",
            *glued.TAPED,
            *((glued.SLIPPED_DRY, *_bare(plan, rings)) if _slips(plan, rings) else ()),
            "Turn the row over, tape down; roll it up on its outline on the board and close it dry in a band.",
            "Pencil a line across every joint and the ring's number on its outer side.",
        ),
        makes=(len(rings), "ring"),
        rings=rings,
        jigs=once.uses(boards, "shows where each ring's outside lies"),
        checks=right_if(
            "dry",
            "Hold each ring to a window: no light at any joint",
            if_not="all joints open at the outside: set the fences by the joint plate; one joint: sand or change "
            "that segment",
        ),
        minutes=each(len(rings), CHECKED + MARKING),
    )


def _glued(plan: VesselPlan, rings: Rings, rack: Rack, once: Once, met: Counter[str]) -> Iterator[Operation]:
    """Rings of one count may still differ in what is glued: strips between their segments, or none."""
    own = [stage for stage in stages_of(plan, "rings") if set(stage.rings) <= set(rings)]
    before: dict[tuple[int, ...], str] = {}
    for stage in own:
        kind = {glued.WHOLE: "close", glued.HALVES: "halves"}.get(stage.what, "arcs")
        met[kind] += 1
        yield _stage(plan, stage, before.get(stage.rings, "segments"), kind, nth(met[kind]), once, rack)
        if kind == "halves" and not set(stage.rings) & set(plan.ring_boards.whole):
            yield _true(stage, rack, nth(met[kind]), once)
        before[stage.rings] = stage.what


DOES = {
    "close": "Glue the {} into whole rings.",
    "halves": "Glue the {} into half rings.",
    "arcs": "Glue the {} in short arcs.",
}
COMES = {"close": "ring", "halves": "half ring", "arcs": "arc"}


def _stage(
    plan: VesselPlan, stage: GlueStage, before: str, kind: str, end: str, once: Once, rack: Rack
) -> Operation:
    slips = _slips(plan, stage.rings)
    return glue_up(
        plan,
        stage,
        ID,
        f"{kind}{end}",
        DOES[kind].format(before),
        COMES[kind],
        how=(
            *((glued.END_GRAIN,) if glued.drinks(plan) else ()),
            *((glued.SLIPPED,) if slips and before == "segments" else ()),
            *(
                ("Spread glue on the faces of each joint, and close the band round the ring by hand.",)
                if kind == "close"
                else glued.arcs_closed(
                    stage, COMES[kind], _count(plan, stage.rings), slips and before == "segments"
                )
            ),
            "Press the ring flat on its board with a waxed block while the band is still loose.",
            "Tighten the band until every joint shows a line of glue; the ring still lies flat.",
            glued.wiped("opening", before == "segments"),
            *(
                ("Trim what stands between the segments flush once it is dry.",)
                if slips and kind == "close"
                else ()
            ),
        ),
        settings=_bands(plan, stage.rings),
        jigs=once.uses(_boards(plan, rack, stage.rings), "the ring lies flat on it, its outside on the line"),
        checks=(DRY_FIT,),
    )


def _bands(plan: VesselPlan, rings: Sequence[int]) -> tuple[Quantity, ...]:
    """The longest and the shortest, with their overlap."""
    lengths = [band.length for band in plan.wood.glue.bands if set(band.rings) & set(rings)]
    if not lengths:
        return ()
    if len(set(lengths)) == 1:
        return (ruled("band", "Clamp band, with its overlap", lengths[0]),)
    return (
        ruled("band.longest", "Band of the largest ring, with its overlap", max(lengths)),
        ruled("band.shortest", "Band of the smallest ring, with its overlap", min(lengths)),
    )


def _true(stage: GlueStage, rack: Rack, end: str, once: Once) -> Operation:
    return at_bench(
        f"{ID}.true{end}",
        "Sand both ends of each half ring into one plane on the ring-truing board.",
        how=(
            "Look through under the check first: only a half that shows light is sanded.",
            "Press evenly on both ends; turn it over and sand as many strokes again.",
        ),
        makes=(stage.count, "half ring"),
        rings=stage.rings,
        jigs=once.uses(rack.named(*TRUING)),
        checks=right_if(
            "meet",
            "Two halves of a ring pressed together by hand: no light at either joint",
            if_not="light at the outside: sand the inner edges more; at the opening: the outer edges",
        ),
        cautions=("sander",),
        minutes=each(stage.count, FLATTENED),
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Glue the rings", operations, jigs=(ring_truing, glue_up_boards))
