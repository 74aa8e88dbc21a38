"""The slip box: fence in its base, hold-down over both sides of the cut, a line for each ring's slips."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, dist

from geometry.plane.edges import FloatArray
from jigs.asked.job import Job
from jigs.dryfit.bench import SLACK, STRAIGHT_ON, slots, tab_checks, tabs
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drill
from jigs.dryfit.vessel.rings import Held
from jigs.dryfit.vessel.work import Work

THIN = 10.0  # mm: thinner strips between segments are cut in the box
PROUD = (1.0, 6.0)  # mm that a slip is longer than its joint, to be trimmed


def slip_checks(work: Work, files: Files, rings: Sequence[Held]) -> list[Check]:
    """Nothing where there are no slips."""
    spaced = [ring for ring in rings if 0 < ring.spacer < THIN and not ring.open]
    joints = {ring.number: (ring.most - ring.core) / cos(ring.mitre) for ring in spaced}
    return box_checks(work.job, files, joints) if joints else []


def box_checks(job: Job, files: Files, joints: Mapping[int, float]) -> list[Check]:
    """The box, and its lines for rings whose joints between segments are so long."""
    base, fence, hold = (files.drawn(f"slip-box-{name}") for name in ("base", "fence", "hold"))
    found = sorted(slots(base, STRAIGHT_ON), key=lambda s: s.s)
    saw = float(base.lines["saw"][:, 0].mean())
    left, _, right, _ = hold.outline.bounds
    sheet = job.workshop.boards.sheet
    return [
        fence.counted("slots found", len(found), len(tabs(fence))),
        *tab_checks(fence.name, "tab in its slot", tabs(fence), [s.s for s in found], job),
        *base.all_near("fence's face on its line", [s.u[0] + sheet for s in found], 0.0, SLACK),
        fence.near("saw's line over the base's", float(fence.lines["saw"][:, 0].mean()), saw, SLACK),
        hold.check("before the cut", saw - left, 20.0),
        hold.check("past the cut", right - saw, 3.0),
        hold.counted("bolts", len(hold.drills), 2),
        *hold.all_near("bolt over the base's hole", [_off(d, base.drills) for d in hold.drills], 0.0, SLACK),
        *hold.all_within("bolt beside the cut", [abs(d.centre[0] - saw) for d in hold.drills], 8.0),
        *(check for ring, joint in joints.items() for check in _lengths(ring, joint, base.lines, saw)),
    ]


def _off(drill: Drill, others: Sequence[Drill]) -> float:
    """How far the nearest of other holes is."""
    return min(dist(drill.centre, other.centre) for other in others)


def _lengths(ring: int, joint: float, lines: dict[str, FloatArray], saw: float) -> list[Check]:
    """The joint of a ring, from its opening to its outside, and what is trimmed."""
    names = [n for n in lines if n.startswith("slip, rings ") and str(ring) in n.split()[2:]]
    where = f"slip-box-base, ring {ring}"
    return [
        Check(where, "lines for its slips", len(names), 1, 2, "pieces"),
        *(
            Check(
                where, "slip longer than the joint by", float(lines[name][:, 0].mean()) - saw - joint, *PROUD
            )
            for name in names[:1]
        ),
    ]
