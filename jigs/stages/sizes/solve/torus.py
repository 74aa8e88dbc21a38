"""The sizes' share of the plan."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.bodies.torus import Blank
from geometry.lathe.size_gauges import groups, plate_sagitta
from jigs.asked.job import TorusJob
from jigs.stages.gauging.plan.torus import Stage
from jigs.stages.sizes.plan.torus import SizesPlan, SizeStage
from jigs.stages.sizes.plate import sizes_plate

LEG = 16.0  # width of a fork's legs
HOLE_PLAY = 2.0  # of the inner leg in the hole
CLEAR_OF_BOARD = 1.0  # of the tips, over its spigot
CLEAR_OF_FRONT = 3.0


def solve_sizes(job: TorusJob, blank: Blank, stages: Sequence[Stage], board: float) -> SizesPlan:
    """Every stage's sizes; stages share a gauge as far as its tips stay clear of the first board.

    `board` is how far its spigot's top lies below the tube's centre.
    """
    plate = sizes_plate(job, blank)
    sizes = tuple(_stage(job, k, stage, plate) for k, stage in enumerate(stages, 1))
    shared = groups([size.tube for size in sizes], board - CLEAR_OF_BOARD)
    return SizesPlan(
        plate=plate,
        stages=sizes,
        groups=tuple(tuple(sizes[k] for k in group) for group in shared),
        above=blank.apothem + CLEAR_OF_FRONT,
        leg=min(LEG, 2 * sizes[0].hole - HOLE_PLAY),
    )


def _stage(job: TorusJob, number: int, stage: Stage, plate: float) -> SizeStage:
    tube, major = job.form.tube.beyond(stage.offset), job.form.major_radius
    hole = major - tube.wide
    return SizeStage(number, stage.label, tube, major + tube.wide, hole, plate_sagitta(hole, plate))
