"""What cuts segments: the carrier for strips lying flat, and the sled for flat rings where there is one."""

from __future__ import annotations

from math import cos, pi, tan

import numpy as np

from jigs.asked.job import TorusJob
from jigs.dryfit import flat_sled
from jigs.dryfit.bench import (
    OVER,
    SLACK,
    STRAIGHT_ON,
    over_sheet,
    slots,
    square_fence_checks,
    tab_checks,
    tabs,
)
from jigs.dryfit.bolts import bolt_in, pin_checks, pin_in, thread_checks
from jigs.dryfit.files import Files
from jigs.dryfit.hold_down import FOOT, Place, hold_checks, press_checks
from jigs.dryfit.model import Check, Drawn
from jigs.dryfit.saw_guides import level_handle_checks, rail_checks, run_out_checks, runner_checks

PIN_PAST_NOSE = 8.0  # mm: beside the nose, clear of the strip
BESIDE = 8.0  # mm of the arm beside its bolt's hole
LEAST_LINE = 5.0  # mm of the line that the stop is set by
RAIL = 25.0  # mm, width of the rail beside blocks of a layup
RING = 0.1  # mm, of the apothem that n segments close to


def _right(job: TorusJob, files: Files) -> bool:
    """Whether the carrier is drawn for a blade that tilts to the right: all of it is then mirrored."""
    return job.workshop.saw.tilts == "right" and not files.has("segment-rail")


def _faced(job: TorusJob, files: Files, name: str) -> Drawn:
    return files.facing(name, _right(job, files))


def carrier_checks(job: TorusJob, files: Files, apothem: float) -> list[Check]:
    """The carrier: its parts together, and the ring that its segments close to."""
    base, fence = _faced(job, files, "segment-base"), _faced(job, files, "segment-fence")
    found, sheet = slots(base, STRAIGHT_ON), job.workshop.boards.sheet
    at_fence = sorted((s for s in found if s.u[1] > -SLACK), key=lambda s: s.s)
    low = min(s.u[0] for s in found)
    grip = sorted((s for s in found if s not in at_fence and s.u[0] < low + 1), key=lambda s: s.s)
    behind = [s for s in found if s not in at_fence and s not in grip]
    blade = float(base.lines["blade, kept side"][:, 0].mean())
    gusset = files.drawn("segment-gusset")
    places = [(-s.u[1] - sheet, -s.u[0] - sheet) for s in behind]
    return [
        *square_fence_checks(job, base, fence, "blade, kept side", found, at_fence),
        *tab_checks(gusset.name, "foot tab in the base", [tabs(gusset)[0]] * len(places), places, job),
        *(over_sheet(gusset.name, "slot over the sheet", s.s[1] - s.s[0], job) for s in behind),
        *level_handle_checks(job, files.drawn("segment-handle"), grip, blade - _leans(job, files, apothem)),
        *_stop_checks(job, base, _faced(job, files, "segment-stop"), blade),
        base.near("segments close to a ring of apothem", _apothem(job, base, files, blade), apothem, RING),
        *_hold_checks(job, files, fence, apothem),
        *_carrier_guides(job, files, base, blade, apothem),
    ]


def stop_line(base: Drawn, arm: Drawn) -> float:
    """x of the stop: the arm's nose edge, turned on its bolt in the base."""
    return bolt_in(base).centre[0] + arm.outline.bounds[0]


def _stop_checks(job: TorusJob, base: Drawn, arm: Drawn, blade: float) -> list[Check]:
    """Arm, bolt and pin; the line that shows where the nose comes."""
    pivot, pin, nose = bolt_in(base), pin_in(base), stop_line(base, arm)
    x0, y0, x1, _ = arm.outline.bounds
    line = base.lines["stop line"]
    sides = [e for e in arm.straight() if abs(e.midpoint[0] - x0) < 0.5 and e.length > 20]
    return [
        *arm.all_near(
            "nose edge out of line", [x - x0 for e in sides for x in (e.start[0], e.end[0])], 0.0, SLACK
        ),
        *base.all_near("stop's measuring line at the nose", [float(x) for x in line[:, 0]], nose, SLACK),
        base.check("stop's measuring line, length", float(np.ptp(line[:, 1])), LEAST_LINE),
        arm.near("pin against its rear edge", pin.centre[0] - pin.diameter / 2 - pivot.centre[0], x1, SLACK),
        arm.near("nose at the stop line's end", pivot.centre[1] + y0, float(line[:, 1].min()), OVER),
        arm.near("pin beside the nose", pin.centre[1] - pivot.centre[1] - y0, PIN_PAST_NOSE, 0.5),
        *arm.all_near("bolt on its line", [d.centre[0] for d in arm.drills], 0.0, SLACK),
        *arm.all_within("wood beside its bolt", [min(-x0, x1) - d.diameter / 2 for d in arm.drills], BESIDE),
        *arm.all_near("bolt at its place", [d.centre[1] for d in arm.drills], 0.0, SLACK),
        *thread_checks(arm.name, "bolt hole", [pivot, *arm.drills], job.fittings.bolt),
        *pin_checks(arm.name, [pin]),
        arm.check("stop clear of the blade", nose - blade, 1.0),
    ]


def _apothem(job: TorusJob, base: Drawn, files: Files, blade: float) -> float:
    """Of a ring of n segments, joints sanded: the outer edge is the stop and half of what the blade leans over."""
    mitre, core = pi / job.form.segments, job.form.core_opening / 2
    stop = stop_line(base, _faced(job, files, "segment-stop")) - blade
    sanding = (2 * job.form.joint_sanding - job.form.spacer) / cos(mitre)
    # stop = (outer + inner) / 2 as cut, and outer - inner = 2 (A - C) tan(mitre)
    return (stop - sanding) / tan(mitre) - core


def _hold_checks(job: TorusJob, files: Files, fence: Drawn, apothem: float) -> list[Check]:
    """Both hold-downs; at the strip's top the blade has leant over by the strip's thickness, its kerf beyond."""
    tilt, depth, kerf = pi / job.form.segments, _depth(job, apothem), _kerf(job, files)
    lean, clear = depth * tan(tilt), job.workshop.sled.clear_of_blade
    fingers = (files.drawn("segment-finger"),)
    width = float(_faced(job, files, "segment-base").lines["stop line"][:, 1].max())
    found: list[Check] = []
    for name, way, blade, least in (
        ("strip", -1, -lean - kerf / cos(tilt), clear),
        ("segment", 1, -lean, FOOT),
    ):
        slide = _faced(job, files, f"segment-hold-{name}")
        place = Place(fence, slide, fingers, way, blade, (depth,), width, least)
        found += hold_checks(job, files, place, "segment-cam", "segment-lever")
    return found


def _kerf(job: TorusJob, files: Files) -> float:
    return job.workshop.bandsaw.kerf if files.has("segment-rail") else job.workshop.saw.kerf


def _depth(job: TorusJob, apothem: float) -> float:
    """Of a segment, which lies on the carrier with it upright."""
    return apothem - job.form.core_opening / 2


def _leans(job: TorusJob, files: Files, apothem: float) -> float:
    """How far the tilted blade comes over to the handle's side, at the top of the strip."""
    tilt = pi / job.form.segments
    return _depth(job, apothem) * tan(tilt) + _kerf(job, files) / cos(tilt)


def _carrier_guides(job: TorusJob, files: Files, base: Drawn, blade: float, apothem: float) -> list[Check]:
    """Under the base the tilted blade has come over by the sheet's thickness."""
    saw, tilt = job.workshop.saw, pi / job.form.segments
    far = blade + job.workshop.boards.sheet * tan(tilt) - _kerf(job, files) / cos(tilt)
    if files.has("segment-rail"):
        return rail_checks(job, files, "segment", base, 0.0, far)
    beside = saw.slot_distance + saw.slot_width / 2
    kept = blade + job.workshop.boards.sheet * tan(tilt)
    slot = kept + beside if _right(job, files) else far - beside
    work = (0.0, _depth(job, apothem))
    return [
        *runner_checks(job, base, files.drawn("segment-runner"), slot),
        *run_out_checks(job, base, _faced(job, files, "segment-exit-block"), "blade, kept side", work, tilt),
    ]


def _strip_width(job: TorusJob, files: Files) -> float:
    """Of the strips: how far the stop line on the carrier's base leads, without a rail."""
    reach = float(_faced(job, files, "segment-base").lines["stop line"][:, 1].max())
    return reach - (RAIL if job.layup else 0.0)


def flat_ring_checks(job: TorusJob, files: Files, apothem: float) -> list[Check]:
    """The sled for flat rings: two fences the mitre angle off square, one stop for both."""
    if not files.has("plan-angle-base"):
        return []
    base, fence = files.drawn("plan-angle-base"), files.drawn("plan-angle-fence")
    mitre = pi / job.form.segments
    sides = {side: flat_sled.fence_frame(mitre, side) for side in (1, -1)}
    at_fence = {side: flat_sled.fence_slots(base, frame, side) for side, frame in sides.items()}
    line, arm = base.lines["blade, kept side"], files.drawn("plan-angle-stop")
    blade = float(line[:, 0].mean())
    sanding = (2 * job.form.joint_sanding - job.form.spacer) / cos(mitre)
    edge = (stop_line(base, arm) - blade) / cos(mitre) - sanding
    grip = flat_sled.grip_slots(base, blade)
    saw = job.workshop.saw
    wood = (_strip_width(job, files), apothem - job.form.core_opening / 2 + (RAIL if job.layup else 0.0))
    return [
        base.near("blade's line upright", float(np.ptp(line[:, 0])), 0.0, SLACK),
        *(c for side in sides for c in flat_sled.fence_checks(job, fence, at_fence[side], side)),
        *flat_sled.facing(fence.name, at_fence),
        *_stop_checks(job, base, arm, blade),
        base.near("segments close to a ring of apothem", edge / (2 * tan(mitre)), apothem, RING),
        *level_handle_checks(job, files.drawn("plan-angle-handle"), grip, blade - job.workshop.saw.kerf),
        *runner_checks(
            job,
            base,
            files.drawn("plan-angle-runner"),
            blade - saw.kerf - saw.slot_distance - saw.slot_width / 2,
        ),
        *run_out_checks(
            job,
            base,
            files.drawn("plan-angle-exit-block"),
            "blade, kept side",
            (flat_sled.cut_ends(job, at_fence, mitre), wood[0]),
        ),
        *flat_sled.flat_hold_checks(job, files, "", [wood]),
        *press_checks(job, files, "", base, blade, [wood[0]], stop_line(base, arm) - blade),
    ]
