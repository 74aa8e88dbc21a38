"""Discs and upright pieces: glued up where one board is too small, flattened, made round. The operations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi, sqrt

from geometry.lathe.turning import rough_speed_limits
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.runs import Run, batches, merged
from jigs.stages.glue_up.operation import glue_up, stages_of
from jigs.stages.glue_up.plan import POSTS, GlueStage
from jigs.stages.stack.plan import Layer
from jigs.words.quantity import Quantity, calliper, ring_list, ruled
from jigs.work.lathe import clear_of_bed, speeds
from jigs.work.minutes import CROSSCUT, MARKING, MOUNTED, SETTING, each
from jigs.work.model import Operation, Place, Rack, Reading, Stage, at_lathe, right_if
from jigs.work.paper_block import SAW, block_goods, on_block
from jigs.work.steps import FLAT, flattened, nth

ID = "solids"
LEAST_BANDSAWN = 150.0  # mm across: smaller discs bring the fingers to the blade; common practice, no source
BLOCK = 0.6  # of a disc's diameter, its waste block; common practice, no source
ACROSS = "Calliper across it, twice, a quarter of a turn apart"


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Glued, flattened, round; nothing where every ring is of segments or staves."""
    return [*_glued(plan), *_flattened(plan), *_round(plan)]


def _glued(plan: VesselPlan) -> Iterator[Operation]:
    for number, stage in enumerate(stages_of(plan, "bases"), 1):
        yield _glue(plan, stage, nth(number))


def _glue(plan: VesselPlan, stage: GlueStage, end: str) -> Operation:
    post = stage.what in POSTS.values()
    told = glue_up(
        plan,
        stage,
        ID,
        f"glue{end}",
        f"Glue the pieces of the {stage.what} face to face."
        if post
        else "Glue the pieces of the disc edge to edge.",
        "blank",
        how=(
            "Plane or sand the faces that meet; pencil scribbled on them must be gone."
            if post
            else "Plane the edges that meet straight and square.",
            "Let the grain of all of them run the same way."
            if post
            else "Let the grain run the same way, heart side up and down in turn.",
            "Spread the glue thinly, keep the pieces level between waxed battens, and tighten the clamps evenly.",
        ),
    )
    return replace(told, rings=()) if stage.what == POSTS["knob"] else told


def _flattened(plan: VesselPlan) -> Iterator[Operation]:
    if discs := [layer for layer in plan.stack.layers if layer.kind == "disc" and not layer.upright]:
        heights = _heights(discs)
        yield flattened(
            ID,
            "flatten",
            "Flatten both faces of each disc blank, down to its height.",
            (len(discs), "disc"),
            tuple(disc.number for disc in discs),
            plan.job.rings.flattening,
            heights,
            right_if(
                "flat",
                f"{FLAT}; calliper at four places",
                if_not="thick: rub on; thin: the ring above comes down by as much",
            ),
            readings=[Reading(height.id, height.label, height) for height in heights],
        )


def _heights(layers: Sequence[Layer]) -> tuple[Quantity, ...]:
    return tuple(
        calliper(f"height.{layer.number}", f"Disc of ring {layer.number}: height", layer.ring.height)
        for layer in layers
    )


def _round(plan: VesselPlan) -> Iterator[Operation]:
    """One operation for all that are made round in one way."""
    own = [layer for layer in plan.stack.to_make if layer.kind == "disc"]
    discs = [Run(_round_on(plan.job, one), *_one(one)) for one in own if not one.upright]
    for number, batch in enumerate(batches(discs), 1):
        run = merged(batch)
        yield _sawn(run, nth(number)) if run.place == "bandsaw" else _turned(plan, run, nth(number))
    uprights = [
        Run("lathe", *_one(one), (calliper("height", "Height", one.ring.height),))
        for one in own
        if one.upright
    ]
    for number, batch in enumerate(batches(uprights), 1):
        yield _upright(plan, merged(batch), nth(number))


def _one(layer: Layer) -> tuple[tuple[int, ...], int, tuple[Quantity, ...]]:
    return (layer.number,), 1, (ruled("across", "Across", 2 * layer.ring.outer),)


def _round_on(job: VesselJob, layer: Layer) -> Place:
    """The bandsaw, where there is one that takes the disc and the disc is large enough to hold; else the lathe."""
    height, thick = job.workshop.bandsaw.height, layer.ring.height + job.rings.flattening
    large = 2 * layer.ring.outer >= LEAST_BANDSAWN
    return "bandsaw" if large and height is not None and thick <= height else "lathe"


def _which(one: str, run: Run) -> str:
    """ "the disc of ring 1", "each disc of rings 1, 2" """
    return f"{'the' if len(run.rings) == 1 else 'each'} {one} of {ring_list(run.rings)}"


def _sawn(run: Run, end: str) -> Operation:
    return Operation(
        f"{ID}.disc{end}",
        f"Saw {_which('disc', run)} round, just outside its circle.",
        "bandsaw",
        how=(
            "Find the middle by the diagonals and draw the circle.",
            "Lay it flat on the table, both hands beside the blade, never before it.",
            "Saw outside the line; what is left comes off at the lathe.",
        ),
        makes=(run.pieces, "disc"),
        rings=run.rings,
        settings=run.settings,
        checks=right_if(
            "across",
            ACROSS,
            if_not="wider in one place: saw it again; narrower than the circle: make another",
        ),
        cautions=("bandsaw", "bandsaw.guides", "bandsaw.power"),
        minutes=each(run.pieces, CROSSCUT * 2, SETTING),
    )


def _across(plan: VesselPlan, run: Run) -> float:
    """The widest of the pieces that are made round."""
    return max(2 * layer.ring.outer for layer in plan.stack.layers if layer.number in run.rings)


def _turned(plan: VesselPlan, run: Run, end: str) -> Operation:
    across = _across(plan, run)
    return at_lathe(
        f"{ID}.disc{end}",
        f"Turn {_which('disc', run)} round, glued with paper to a waste block.",
        how=(
            "Draw the circle; saw the corners off by hand to eight sides, outside it, the blank clamped.",
            *clear_of_bed(across, plan.job.workshop.lathe.swing_over_bed),
            SAW,
            "Glue the disc's middle to the block, brown paper between; leave it in clamps.",
            "Bring up the tailstock, its point in the disc's middle.",
            "Turn it to the circle in light cuts.",
            "Take it off the lathe, clamp the block, and split the disc off along the paper with a wide chisel.",
            "Sand the paper off.",
        ),
        makes=(run.pieces, "disc"),
        rings=run.rings,
        settings=(*run.settings, *on_block(plan, BLOCK * across, across / cos(pi / 8))),
        checks=right_if(
            "across",
            f"{ACROSS}, the lathe stopped",
            if_not="wider: one more cut; narrower: use it if it clears the finished size by the allowance",
        ),
        cautions=("lathe.paper", "lathe", "chisel"),
        minutes=each(run.pieces, MOUNTED + CROSSCUT * 4, MARKING),
        hours=plan.wood.glue.clamp_time * run.pieces,
        uses_up=block_goods(plan, "discs", BLOCK * across),
    )


def _upright(plan: VesselPlan, run: Run, end: str) -> Operation:
    return at_lathe(
        f"{ID}.upright{end}",
        f"Turn {_which('upright piece', run)} round between centres, and face its ends.",
        how=(
            "Find the middle of both ends by the diagonals, and hold it there between centres.",
            "Turn it round from the corners, from the middle towards the ends.",
            "Face both ends square with a parting tool, to its height, down to a stub at the centres.",
            "Saw the stubs off by hand and sand the ends flat.",
        ),
        makes=(run.pieces, "piece"),
        rings=run.rings,
        settings=(*run.settings, *speeds(rough_speed_limits(sqrt(2) * _across(plan, run)))),
        checks=right_if(
            "ends",
            "Lathe stopped: a square over both ends, calliper across and over the height",
            run.checks,
            "light in the middle is right for the glue; light at the rim: face it again",
        ),
        cautions=("lathe", "lathe.gauge", "lathe.stand"),
        readings=tuple(Reading(size.id, size.label, size) for size in run.checks),
        minutes=each(run.pieces, MOUNTED + CROSSCUT * 4),
    )


STAGE: Stage[VesselPlan] = Stage(ID, "Make the solid pieces", operations)
