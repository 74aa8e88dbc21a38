"""What guides a base past the blade, and what ends the cut: runner or rail, handle, exit block or batten.

A blade ends its cut inside a block of wood, the work cut through, the base still in one piece behind.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sqrt, tan

import numpy as np

from geometry.plane.edges import FloatArray
from jigs.asked.job import Job
from jigs.dryfit.bench import ANGLE, OVER, SLACK, STRAIGHT_ON, Slot, over_checks, slots, tabs
from jigs.dryfit.bolts import is_screw, screw_checks, thread_checks
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, Drill

ON_TABLE_LINE = 0.2  # mm
FEED_PAST = 40.0  # mm at most that the feed goes on behind the cut


def screws(base: Drawn) -> list[Drill]:
    """The holes of the screws from below; other holes are for larger bolts."""
    return [d for d in base.drills if is_screw(d)]


def runner_checks(job: Job, base: Drawn, runner: Drawn, slot: float) -> list[Check]:
    """The runner under its base; `slot` is the x of the mitre slot's middle."""
    width, saw = runner.outline.bounds[3] - runner.outline.bounds[1], job.workshop.saw
    ours = [d.centre[0] for d in runner.drills]
    start = (base.outline.bounds[1] + base.outline.bounds[3] - runner.outline.bounds[2]) / 2
    return [
        runner.near("play in the mitre slot", saw.slot_width - width, job.workshop.sled.runner_play, SLACK),
        *over_checks(
            runner.name, "screw under the base's hole", ours, [d.centre[1] - start for d in screws(base)]
        ),
        *runner.all_near("base's hole over the slot", [d.centre[0] for d in screws(base)], slot, 0.3),
        *runner.all_near("hole in the runner's middle", [d.centre[1] for d in runner.drills], width / 2, 0.3),
        *thread_checks(runner.name, "hole", [*screws(base), *runner.drills], job.fittings.screw),
    ]


def level_handle_checks(job: Job, handle: Drawn, grip: list[Slot], blade: float) -> list[Check]:
    """A handle that lies across the feed; `blade` is the x of the blade's nearest place above the base."""
    tab, end = tabs(handle)[-1], handle.outline.bounds[2]
    reach = [blade - sum(s.s) / 2 - (end - sum(tab) / 2) for s in grip[-1:]]  # tabs in their slots' middle
    return handle_checks(job, handle, [s.s for s in grip], reach, [s.u[0] for s in grip])


def handle_checks(
    job: Job, handle: Drawn, spread: list[tuple[float, float]], away: list[float], aside: list[float]
) -> list[Check]:
    """Tabs over their slots, which run from and to `spread`.

    `away` is how far it stays from the blade, `aside` where the slots' walls are across the handle.
    """
    ours = tabs(handle)
    slack = max(0.15, job.workshop.boards.play)
    pairs = [
        (a - ours[0][0], b - spread[0][0])
        for tab, slot in zip(ours, spread, strict=False)
        for a, b in zip(tab, slot, strict=True)
    ]
    return [
        handle.counted("slots found", len(spread), len(ours)),
        *handle.all_near("slots in one line", aside[1:], aside[0], SLACK),
        *(handle.near("end of a tab over its slot", t, s, slack + SLACK) for t, s in pairs),
        *handle.all_within("hands clear of the blade", away, job.workshop.sled.hands_clear - SLACK),
    ]


def rail_checks(job: Job, files: Files, prefix: str, base: Drawn, leaves: float, blade: float) -> list[Check]:
    """The bandsaw's rail on the table's edge, the strip that runs on it, the batten that ends the feed.

    `blade` is the x of the teeth under the base, `leaves` the y at which the cut of the work ends.
    """
    rail, strip, batten = (files.drawn(f"{prefix}-{name}") for name in ("rail", "strip", "batten"))
    saw = job.workshop.bandsaw
    edge, front = base.lines["strip, under the base"], base.lines["batten, under the base"]
    x, lean, wide = float(edge[:, 0].mean()), *_taper(rail, saw.table_front)
    holes = screws(base)
    on_strip = [d for d in holes if abs(x - d.centre[0] - _wide(strip) / 2) < 2.0]
    return [
        rail.near("taper is the drift", degrees(lean), saw.drift, ANGLE, "deg"),
        rail.near(
            "strip on the rail beside the teeth",
            blade - x,
            (saw.table_left + wide) * cos(radians(saw.drift)),
            ON_TABLE_LINE,
        ),
        rail.check("strip's line leans", float(np.ptp(edge[:, 0])), 0.0, SLACK),
        *thread_checks(rail.name, "hole", rail.drills, job.fittings.bolt),
        *rail.all_near(
            "hole in the narrow end's middle", [d.centre[1] for d in rail.drills], min(_ends(rail)) / 2, 0.3
        ),
        *_strip_checks(strip, on_strip, base, x),
        *_batten_checks(job, batten, [d for d in holes if d not in on_strip], front, blade, leaves),
    ]


def _wide(plate: Drawn) -> float:
    return plate.outline.bounds[3] - plate.outline.bounds[1]


def _ends(rail: Drawn) -> tuple[float, float]:
    """Width of the rail at the table's front (x = 0) and at its far end."""
    upright = sorted((e for e in rail.straight() if e.apart[0] < 0.5), key=lambda e: e.midpoint)
    return upright[0].length, upright[-1].length


def _taper(rail: Drawn, teeth: float) -> tuple[float, float]:
    """Angle of the rail's outer edge to the table's, and its width beside the teeth."""
    near_end, far_end = _ends(rail)
    long = rail.outline.bounds[2] - rail.outline.bounds[0]
    return atan2(far_end - near_end, long), near_end + (far_end - near_end) * teeth / long


def _strip_checks(strip: Drawn, holes: list[Drill], base: Drawn, x: float) -> list[Check]:
    start = (base.outline.bounds[1] + base.outline.bounds[3] - strip.outline.bounds[2]) / 2
    middle = _wide(strip) / 2
    return [
        *over_checks(
            strip.name,
            "screw under the base's hole",
            [d.centre[0] for d in strip.drills],
            [d.centre[1] - start for d in holes],
        ),
        *strip.all_near("base's hole over its middle", [x - d.centre[0] for d in holes], middle, 0.3),
        *strip.all_near("hole in its middle", [d.centre[1] for d in strip.drills], middle, 0.3),
        *screw_checks(strip.name, [*holes, *strip.drills]),
    ]


def _batten_checks(
    job: Job, batten: Drawn, holes: list[Drill], front: FloatArray, blade: float, leaves: float
) -> list[Check]:
    (x0, y0), (x1, y1) = front[np.argmin(front[:, 0])], front[np.argmax(front[:, 0])]
    long, saw = hypot(x1 - x0, y1 - y0), job.workshop.bandsaw
    c, s, middle = (x1 - x0) / long, (y1 - y0) / long, _wide(batten) / 2
    places = [
        ((d.centre[0] - x0) * c + (d.centre[1] - y0) * s, (d.centre[0] - x0) * s - (d.centre[1] - y0) * c)
        for d in holes
    ]  # along the batten's edge and behind it
    end = y0 + (blade - x0) * s / c + saw.table_front / cos(radians(saw.drift))
    return [
        batten.near("edge on the table's front", degrees(atan2(s, c)), -saw.drift, ANGLE, "deg"),
        batten.check("feed ends behind the work", leaves - end, 0.0, FEED_PAST),
        *over_checks(
            batten.name,
            "screw under the base's hole",
            [d.centre[0] for d in batten.drills],
            [along for along, _ in places],
        ),
        *batten.all_near("base's hole over its middle", [back for _, back in places], middle, 0.3),
        *batten.all_near("hole in its middle", [d.centre[1] for d in batten.drills], middle, 0.3),
        *thread_checks(batten.name, "hole", [*holes, *batten.drills], job.fittings.screw),
    ]


def bridge_checks(job: Job, base: Drawn, bridge: Drawn) -> list[Check]:
    """The bridge behind the cut, which ties both halves of the base."""
    level = [s for s in slots(base, STRAIGHT_ON) if abs(s.turn) < 0.5 and s.s[1] - s.s[0] > s.u[1] - s.u[0]]
    ours, most = tabs(bridge), 2 * job.workshop.boards.play + SLACK
    line = base.lines["blade line"]
    pairs = list(zip(ours, sorted(slot.s for slot in level), strict=False))
    return [
        bridge.counted("slots found", len(level), len(ours)),
        *bridge.all_within("tab in its slot, near end", [t[0] - s[0] for t, s in pairs], -SLACK, most),
        *bridge.all_within("tab in its slot, far end", [s[1] - t[1] for t, s in pairs], -SLACK, most),
        *bridge.all_near("slots in one line", [s.u[0] for s in level[1:]], level[0].u[0], SLACK),
        *bridge.all_within(
            "behind the end of the cut", [float(line[:, 1].min()) - s.u[1] for s in level], 5.0
        ),
        bridge.check("tied on both sides of the cut", -ours[0][1] * ours[-1][0], 0.0),
    ]


def guide_line_checks(job: Job, base: Drawn) -> list[Check]:
    """The line that lies parallel to the table's edge when the sled lies on its rail."""
    line = base.lines["guide line: table's edge"]
    (x0, y0), (x1, y1) = line[np.argmin(line[:, 1])], line[np.argmax(line[:, 1])]
    drift = job.workshop.bandsaw.drift
    return [base.near("guide line is the drift", degrees(atan2(x1 - x0, y1 - y0)), drift, ANGLE, "deg")]


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
        base.check("work cut through when the feed ends, by", through, -SLACK),
        block.check("reaches past the blade", x1 - blade, 20.0),
        block.check("blade inside its left side", far - x0, BESIDE),
        *_cover_checks(base, block, end),
        block.check("before the blade's front edge", y1 - end, COVER),
    ]


def _cover_checks(base: Drawn, block: Drawn, front: float) -> list[Check]:
    low = block.outline.bounds[1]
    return [
        block.check("behind the blade's front edge", front - low, COVER),
        block.check("lies on the base", low - base.outline.bounds[1], -SLACK),
        base.check("whole behind the end of the cut", front - base.outline.bounds[1], TIED),
    ]


def exit_checks(job: Job, base: Drawn, block: Drawn, batten: Drawn, work: tuple[float, float]) -> list[Check]:
    """The block of a sled whose feed is ended by a batten that meets the front of the saw's table."""
    x0, _, x1, y1 = block.outline.bounds
    leaves, height = work
    axle = float(base.lines[BATTEN_LINE][:, 1].mean()) + job.workshop.saw.table_front
    return [
        block.check("reaches past the blade", x1 - job.workshop.saw.kerf, 20.0),
        block.check("blade inside its left side", -x0, 5.0),
        block.check("starts behind the work", leaves - y1, -SLACK, FEED_PAST),
        batten.check("work cut through when the feed ends, by", leaves - axle, 0.0, FEED_PAST),
        *_cover_checks(base, block, axle - half_chord(job, height)),
        *_exit_batten_checks(base, batten),
    ]


BATTEN_LINE = "batten, under the base"


def _exit_batten_checks(base: Drawn, batten: Drawn) -> list[Check]:
    """As long as its line, under the base, its screws in its middle."""
    line = base.lines[BATTEN_LINE]
    x0, y0, x1, y1 = batten.outline.bounds
    ends = [(d.centre[0] - x0, x1 - d.centre[0]) for d in batten.drills]
    return [
        batten.near("line on the base square to the blade", float(np.ptp(line[:, 1])), 0.0, SLACK),
        batten.check("longer than its line by", x1 - x0 - float(np.ptp(line[:, 0])), -OVER, BROKEN),
        batten.check("width for its screws", y1 - y0, LEAST_BATTEN),
        batten.check("under the base", float(line[:, 1].min()) - (y1 - y0) - base.outline.bounds[1], 0.0),
        batten.check("screws", len(batten.drills), 2, unit="pieces"),
        *batten.all_within("screw inside its ends", [min(both) for both in ends], 5.0),
        *batten.all_near("screw in its middle", [d.centre[1] for d in batten.drills], (y0 + y1) / 2, OVER),
        *screw_checks(batten.name, batten.drills),
    ]
