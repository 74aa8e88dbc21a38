"""Where a blade ends its cut: inside a block of wood, the work cut through, the base still in one piece behind."""

from __future__ import annotations

from math import cos, sqrt, tan

import numpy as np

from jigs.asked.job import Job
from jigs.dryfit.bench import OVER, SLACK
from jigs.dryfit.bolts import screw_checks
from jigs.dryfit.model import Check, Drawn, near
from jigs.dryfit.saw_guides import FEED_PAST

COVER = 15.0  # mm of the block before and behind the blade's front edge, at least
BESIDE = 10.0  # mm of it beside the blade, at least
TIED = 50.0  # mm of the base behind the end of the cut, at least
BROKEN = 45.0  # mm of the batten's line that a slot of the base may take away
LEAST_BATTEN = 20.0  # mm, width for its screws


def half_chord(job: Job, height: float, tilt: float = 0.0) -> float:
    """Half of what the blade takes up at the table when it just comes through work of a height on the base."""
    up, across = (height + job.workshop.boards.sheet) / cos(tilt), job.workshop.saw.blade_diameter
    return sqrt(max(0.0, up * (across - up)))


def run_out_checks(
    job: Job, base: Drawn, block: Drawn, line: str, work: tuple[float, float], tilt: float = 0.0
) -> list[Check]:
    """The block round the end of the blade's marked line, where the feed ends.

    `work` is the y at which the cut of the work ends, and its height. When the feed ends the axle is past it.
    """
    x0, _, x1, y1 = block.outline.bounds
    blade, end = float(base.lines[line][:, 0].mean()), float(base.lines[line][:, 1].min())
    leaves, height = work
    far = blade - height * tan(tilt) - job.workshop.saw.kerf / cos(tilt)
    through = leaves - half_chord(job, height, tilt) - end
    return [
        Check(base.name, "work cut through when the feed ends, by", through, -SLACK),
        Check(block.name, "reaches past the blade", x1 - blade, 20.0),
        Check(block.name, "blade inside its left side", far - x0, BESIDE),
        *_cover_checks(base, block, end),
        Check(block.name, "before the blade's front edge", y1 - end, COVER),
    ]


def _cover_checks(base: Drawn, block: Drawn, front: float) -> list[Check]:
    low = block.outline.bounds[1]
    return [
        Check(block.name, "behind the blade's front edge", front - low, COVER),
        Check(block.name, "lies on the base", low - base.outline.bounds[1], -SLACK),
        Check(base.name, "whole behind the end of the cut", front - base.outline.bounds[1], TIED),
    ]


def exit_checks(job: Job, base: Drawn, block: Drawn, batten: Drawn, work: tuple[float, float]) -> list[Check]:
    """The block of a sled whose feed is ended by a batten that meets the front of the saw's table."""
    x0, _, x1, y1 = block.outline.bounds
    leaves, height = work
    axle = float(base.lines[BATTEN_LINE][:, 1].mean()) + job.workshop.saw.table_front
    return [
        Check(block.name, "reaches past the blade", x1 - job.workshop.saw.kerf, 20.0),
        Check(block.name, "blade inside its left side", -x0, 5.0),
        Check(block.name, "starts behind the work", leaves - y1, -SLACK, FEED_PAST),
        Check(batten.name, "work cut through when the feed ends, by", leaves - axle, 0.0, FEED_PAST),
        *_cover_checks(base, block, axle - half_chord(job, height)),
        *_batten_checks(base, batten),
    ]


BATTEN_LINE = "batten, under the base"


def _batten_checks(base: Drawn, batten: Drawn) -> list[Check]:
    """As long as its line, under the base, its screws in its middle."""
    line = base.lines[BATTEN_LINE]
    x0, y0, x1, y1 = batten.outline.bounds
    ends = [(d.centre[0] - x0, x1 - d.centre[0]) for d in batten.drills]
    return [
        near(batten.name, "line on the base square to the blade", float(np.ptp(line[:, 1])), 0.0, SLACK),
        Check(batten.name, "longer than its line by", x1 - x0 - float(np.ptp(line[:, 0])), -OVER, BROKEN),
        Check(batten.name, "width for its screws", y1 - y0, LEAST_BATTEN),
        Check(
            batten.name, "under the base", float(line[:, 1].min()) - (y1 - y0) - base.outline.bounds[1], 0.0
        ),
        Check(batten.name, "screws", len(batten.drills), 2, unit="pieces"),
        *(Check(batten.name, "screw inside its ends", min(both), 5.0) for both in ends),
        *(near(batten.name, "screw in its middle", d.centre[1], (y0 + y1) / 2, OVER) for d in batten.drills),
        *screw_checks(batten.name, batten.drills),
    ]
