"""The sled put together as drawn, and a ring cut on it."""

from __future__ import annotations

from math import atan2, cos, degrees, pi, tan

import numpy as np

from geometry.bodies.torus import outer_flat
from geometry.hardware.fittings import NUT_FLATS, NUTS
from geometry.plane.contour import Edge
from geometry.records import Record
from jigs.asked.job import TorusJob
from jigs.dryfit import saw_guides
from jigs.dryfit.bench import (
    ANGLE,
    OVER,
    SLACK,
    Bench,
    Slot,
    bench,
    gusset_checks,
    meeting,
    over_sheet,
    slot_of,
    slots,
    tab_checks,
    tabs,
)
from jigs.dryfit.bolts import thread_checks
from jigs.dryfit.draw_rod import WEDGES, fence_drills, peg_checks, rod_checks
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, counted, near
from jigs.dryfit.ring import CutRing, cut_ring, ring_apothem, wedge_taper
from jigs.dryfit.thickness import ring_stack_checks

NUT_UNDER = 11.2  # mm of jaw over the window
NUT_LOOSE = 0.35  # mm, of a nut between the window's sides


def sled_checks(job: TorusJob, files: Files) -> tuple[list[Check], CutRing]:
    """The wedge-ring sled, for the table saw or the bandsaw: how its parts fit, and what it cuts."""
    rings = job.form.wedge_rings
    base, frame = files.drawn("sled-base"), bench(files.drawn("sled-base"))
    fence, cheek, wedge = (files.drawn(name) for name in ("sled-fence", "sled-stop-cheek", "sled-wedge"))
    found = slots(base, frame)
    parts = _sort(found, job.workshop.boards.sheet)
    checks, face, stop = _standing(job, parts, fence, cheek)
    arms, jaw = _arms(job, cheek), files.drawn("sled-jaw")
    apothem = ring_apothem(jaw)
    ring = cut_ring(job, frame, (face, stop, arms), wedge, apothem, files.wedge_turn)
    shift = _fence_shift(parts, fence)
    grip = [h.bounds for h in base.holes if abs(slot_of(h, frame).turn) >= 1.0 and _upright(h.bounds)]
    checks += [
        near("sled", "fence to blade", degrees(frame.angle), 180 / job.form.wedge_rings, ANGLE, "deg"),
        near("sled", "faces of a ring", degrees(ring.included), 360 / rings, ANGLE, "deg"),
        near("sled", "all rings together", degrees(ring.included) * rings, 360, 0.2, "deg"),
        near("sled", "ring's mid-plane off square", abs(degrees(ring.skew)), 0.0, ANGLE, "deg"),
        *_jaw_checks(job, jaw, fence, parts, stop, frame),
        *rod_checks(job, files, fence_drills(fence)[0], shift, (stop, arms), apothem, frame),
        *peg_checks(job, files, fence, shift, stop, arms),
        *_thin_end_checks(files, arms),
        *ring_stack_checks(files, apothem),
        *_gusset_checks(job, files.drawn("sled-gusset"), fence, parts),
        *saw_guides.handle_checks(
            job,
            files.drawn("sled-handle"),
            sorted((b[1], b[3]) for b in grip),
            [-b[2] for b in grip],
            [b[0] for b in grip],
        ),
        *_stop_line_checks(base, frame, stop),
        *_guided(job, files, base, -stop / cos(frame.angle)),
    ]
    return checks, ring


def _stop_line_checks(base: Drawn, frame: Bench, stop: float) -> list[Check]:
    """The line along which the stop is measured: at the stop, up to the blade."""
    places = frame.place(base.lines["stop line"])
    to_blade = places[:, 0] * tan(frame.angle) - places[:, 1]  # along the line
    return [
        *base.all_near("stop's measuring line at the stop", [float(s) for s in places[:, 0]], stop, SLACK),
        base.near("stop's measuring line ends at the blade", float(to_blade.min()), 0.0, OVER),
    ]


def _upright(bounds: tuple[float, float, float, float]) -> bool:
    return bounds[3] - bounds[1] > bounds[2] - bounds[0]


def _guided(job: TorusJob, files: Files, base: Drawn, leaves: float) -> list[Check]:
    """Runner and exit block, or rail, strip, batten and bridge."""
    if files.has("sled-rail"):
        return [
            *saw_guides.rail_checks(job, files, "sled", base, leaves, 0.0),
            *saw_guides.guide_line_checks(job, base),
            *saw_guides.bridge_checks(job, base, files.drawn("sled-bridge")),
        ]
    saw = job.workshop.saw
    slot = -saw.slot_distance - saw.slot_width / 2
    return [
        *saw_guides.runner_checks(job, base, files.drawn("sled-runner"), slot),
        *saw_guides.exit_checks(
            job,
            base,
            files.drawn("sled-exit-block"),
            files.drawn("sled-batten"),
            (leaves, 2 * ring_apothem(files.drawn("sled-jaw"))),
        ),
    ]


class _Sorted(Record):
    fence: list[Slot]
    cheeks: list[Slot]
    gussets: list[Slot]


def _sort(found: list[Slot], sheet: float) -> _Sorted:
    """Whose slot each is: beside the fence line, right of it, square to it behind it."""
    aligned = [slot for slot in found if abs(slot.turn) < 1.0]
    fence = [slot for slot in aligned if abs(slot.u[1]) < sheet / 2 and slot.u[0] < -sheet / 2]
    cheeks = [slot for slot in aligned if slot.u[0] > -sheet / 2]
    gussets = [slot for slot in aligned if slot.u[1] < -sheet]
    return _Sorted(
        sorted(fence, key=lambda s: s.s),
        sorted(cheeks, key=lambda s: s.u),
        sorted(gussets, key=lambda s: s.s),
    )


def _standing(job: TorusJob, parts: _Sorted, fence: Drawn, cheek: Drawn) -> tuple[list[Check], float, float]:
    """Fence and cheeks in their slots: checks, the fence's working face (u) and the stop (s)."""
    sheet = job.workshop.boards.sheet
    faces = [slot.u[0] + sheet for slot in parts.fence]
    foot = tabs(cheek)[0][1] - working_x(job, cheek)
    stops = [slot.s[1] - foot for slot in parts.cheeks]
    checks = [
        counted("sled", "fence slots found", len(parts.fence), len(tabs(fence))),
        *(near("sled", "fence's face off its line", face, 0, SLACK) for face in faces),
        *(near("sled", "fence slot's turn", slot.turn, 0, ANGLE, "deg") for slot in parts.fence),
        *(near("sled", "stop cheek's slot's turn", slot.turn, 0, ANGLE, "deg") for slot in parts.cheeks),
        *(near("sled", "stop cheeks in one plane", stop, stops[0], SLACK) for stop in stops[1:]),
        *tab_checks("sled", "fence tab in its slot", tabs(fence), [slot.s for slot in parts.fence], job),
    ]
    return checks, float(np.mean(faces)), float(np.mean(stops))


def working_x(job: TorusJob, cheek: Drawn) -> float:
    """Where along its plate the cheek's working edge, or the tip of its V, stands."""
    upright = [e for e in cheek.straight() if e.apart[0] < 1e-6 and e.start[1] > 1 and e.end[1] > 1]
    if job.form.segments % 4 == 0:
        return min(e.start[0] for e in upright)
    one, other = sorted((e for e in cheek.straight() if _leans(e)), key=lambda e: e.ends[0])[:2]
    return meeting(one, other)[0]


def _arms(job: TorusJob, cheek: Drawn) -> float:
    """How far the cheek reaches past its working edge, or the tip of its V, towards the apex."""
    above = [float(x) for x, y in cheek.outline.points if y > 0]
    return max(0.0, working_x(job, cheek) - min(above))


def _thin_end_checks(files: Files, arms: float) -> list[Check]:
    """Each wedge, as it is drawn from the stop on, begins where the cheek on the fence ends, since both lie in one
    plane; by how much of its thickness it is out there."""
    wedges = [files.drawn(name) for name in WEDGES if files.has(name)]
    return [
        w.near("thin end at the stop or its arms", out * tan(wedge_taper(w)), 0.0, SLACK)
        for w in wedges
        for out in [w.outline.bounds[0] - arms]
    ]


def _leans(edge: Edge) -> bool:
    """Whether it is an arm of the V, in front of its tip and steeper than the relief below."""
    across, up = edge.apart[0], edge.apart[1]
    return 1e-3 < across < up and edge.ends[0] < -1e-3


def _jaw_checks(
    job: TorusJob, jaw: Drawn, fence: Drawn, parts: _Sorted, stop: float, frame: Bench
) -> list[Check]:
    n, apothem = job.form.segments, ring_apothem(jaw)
    lean = [e for e in jaw.straight() if min(e.apart[0], e.apart[1]) > 0.5]
    angles = [degrees(atan2(e.apart[1], e.apart[0])) for e in lean]
    shift = _fence_shift(parts, fence)
    theirs = fence_drills(fence)[1]
    ours = sorted(jaw.drills, key=lambda drill: drill.centre[0])
    return [
        *(
            near("jaw", "lean of an edge", (a * n / 360 + 0.5) % 1 - 0.5, 0, ANGLE * n / 360, "flats")
            for a in angles
        ),
        counted("jaw", "bolt holes", len(ours), len(theirs)),
        *(
            near("jaw", "bolt hole over the fence's", d.centre[0], f.centre[0] + shift - stop, 0.3)
            for d, f in zip(ours, theirs, strict=False)
        ),
        *(
            Check("jaw", "clear of the ring when bolted", f.centre[1] - d.centre[1], 0.5, 1.5)
            for d, f in zip(ours, theirs, strict=False)
        ),
        *thread_checks("jaw", "bolt hole", [*ours, *theirs], job.fittings.bolt),
        *_screw_checks(job, jaw, apothem),
        Check("jaw", "reaches past the ring's middle", -jaw.outline.bounds[0], outer_flat(apothem, n) + 5),
        Check("jaw", "clear of the blade at its far end", _jaw_room(job, jaw, stop, frame), 10.0),
    ]


def _screw_checks(job: TorusJob, jaw: Drawn, apothem: float) -> list[Check]:
    """The screw comes down on the ring's middle, through the window of its nut."""
    line, middle = jaw.lines["screw"], outer_flat(apothem, job.form.segments)
    top, n = jaw.outline.bounds[3], job.form.segments
    window = min(jaw.holes, key=lambda hole: abs(hole.centroid[0] + middle))
    (x0, y0, x1, y1), nut = window.bounds, NUTS[job.fittings.bolt][1]
    return [
        near("jaw", "screw over the ring's middle", -float(line[:, 0].mean()), middle, 0.3),
        Check("jaw", "screw on the ring's flat", apothem * tan(pi / n) - float(np.ptp(line[:, 0])), 1.0),
        near("jaw", "screw reaches the ring", float(line[:, 1].min()), 2 * apothem, SLACK),
        near("jaw", "screw starts at its top", float(line[:, 1].max()), top, SLACK),
        near("jaw", "nut's window on the screw", -(x0 + x1) / 2, middle, 0.15),
        near("jaw", "nut cannot turn in it", x1 - x0, NUT_FLATS[job.fittings.bolt] + NUT_LOOSE, NUT_LOOSE),
        near("jaw", "wood over its nut", top - y1, NUT_UNDER, 0.5),
        Check("jaw", "nut goes in", y1 - y0, nut, nut + 1),
    ]


def _fence_shift(parts: _Sorted, fence: Drawn) -> float:
    """From the fence's own x to s along the fence line, its tabs in the middle of their slots."""
    return float(np.mean([slot.s for slot in parts.fence])) - float(np.mean(tabs(fence)))


def _jaw_room(job: TorusJob, jaw: Drawn, stop: float, frame: Bench) -> float:
    return (stop + jaw.outline.bounds[0]) * tan(frame.angle) - job.workshop.boards.sheet


def _gusset_checks(job: TorusJob, gusset: Drawn, fence: Drawn, parts: _Sorted) -> list[Check]:
    mortises = sorted(h.bounds for h in fence.holes if not any(e.is_arc for e in h.edges()))
    sheet, shift = job.workshop.boards.sheet, _fence_shift(parts, fence)
    feet = [(-slot.u[1] - sheet, -slot.u[0] - sheet) for slot in parts.gussets]
    square = [e for e in gusset.straight() if abs(e.midpoint[0]) < 0.5 and e.length > 10]
    return [
        *gusset_checks(job, gusset, "gusset", "fence", mortises, parts.gussets, feet, shift),
        *(over_sheet("gusset", "mortise over the sheet", b[2] - b[0], job) for b in mortises),
        *(near("gusset", "fence side upright", e.apart[0], 0, SLACK) for e in square),
    ]
