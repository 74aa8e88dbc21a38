"""The carriage of a flat sled's stop: arm, plate, shoes and guide at every stick's setting."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

import numpy as np

from geometry.hardware.fittings import clearance_hole
from geometry.plane.contour import Contour
from jigs.dryfit.bench import OVER, SLACK
from jigs.dryfit.bolts import BOLTS, pin_checks, pin_in, thread_checks, thread_of
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn


def carriage_checks(
    files: Files, suffix: str, base: Drawn, blade: float, stops: Sequence[float], beyond: float
) -> list[Check]:
    """Arm under the plate, plate on its shoes, both bolts in their slots at every stick's setting.

    No sticks where all the sled's rings are glued already; its lines may lie so far `beyond` those of the others.
    """
    arm, plate, shoe, guide = (
        files.drawn(f"plan-angle-{part}{suffix}") for part in ("stop", "carriage", "shoe", "guide")
    )
    long = sorted((h for h in plate.holes if any(e.is_arc for e in h.edges())), key=lambda h: h.centroid[1])
    pivot = min(plate.drills, key=lambda d: hypot(*d.centre))
    thread = thread_of(pivot, BOLTS)
    bolts = _bolts(base, blade, thread)
    nose, high = arm.outline.bounds[0], plate.outline.bounds[3]
    guided = float(base.lines["guide's edge"][:, 1].mean()) - high  # y of the plate's origin on the base
    half = (long[0].bounds[3] - long[0].bounds[1]) / 2
    least = max(b[0] - (h.bounds[2] - half) for b, h in zip(bolts, long, strict=True)) + nose - blade
    most = min(b[0] - (h.bounds[0] + half) for b, h in zip(bolts, long, strict=True)) + nose - blade
    farthest = base.lines["farthest stop"]  # the only one where there is one setting
    lines = [
        float(base.lines.get(n, farthest)[:, 0].mean()) - blade for n in ("nearest stop", "farthest stop")
    ]
    return [
        *_arm_checks(arm, plate),
        *thread_checks(plate.name, "bolt hole", [pivot, *arm.drills], thread),
        *plate.all_near(
            "slot's width", [h.bounds[3] - h.bounds[1] for h in long], clearance_hole(thread), SLACK
        ),
        *(
            plate.near("slot over its bolt in the base", h.centroid[1] + guided, b[1], SLACK)
            for b, h in zip(bolts, long, strict=True)
        ),
        plate.near("arm's pivot at the origin", hypot(*pivot.centre), 0.0, SLACK),
        *(_at_their_sticks(plate.name, base.name, stops, (least, most), lines, beyond) if stops else ()),
        *_shoe_checks(plate, shoe, long),
        *_guide_checks(base, guide),
    ]


def _at_their_sticks(
    plate: str,
    base: str,
    stops: Sequence[float],
    travel: tuple[float, float],
    lines: list[float],
    beyond: float,
) -> list[Check]:
    low, high = min(stops), max(stops)
    return [
        Check(plate, "nearest stick within its travel by", low - travel[0], 0.0),
        Check(plate, "farthest stick within its travel by", travel[1] - high, 0.0),
        Check(base, "line of the nearest stop at its stick", lines[0], low - OVER - beyond, low + OVER),
        Check(base, "line of the farthest stop at its stick", lines[1], high - OVER, high + OVER + beyond),
    ]


def _bolts(base: Drawn, blade: float, thread: str) -> list[tuple[float, float]]:
    """The two bolts that stand in the base on the stop's side, the near one first."""
    wanted = clearance_hole(thread)
    found = [d for d in base.drills if d.centre[0] > blade and abs(d.diameter - wanted) < SLACK]
    if len(found) != 2:
        raise ValueError(f"{base.name} has {len(found)} holes for the carriage's two bolts")
    return sorted((d.centre for d in found), key=lambda place: place[1])


def _arm_checks(arm: Drawn, plate: Drawn) -> list[Check]:
    """The arm on its bolt, the pin behind it, its nose edge straight."""
    x0, y0, x1, _ = arm.outline.bounds
    pin = pin_in(plate)
    sides = [e for e in arm.straight() if abs(e.midpoint[0] - x0) < 0.5 and e.length > 20]
    ends = [x for e in sides for x in (e.start[0], e.end[0])]
    return [
        arm.counted("nose edges found", len(sides), 1),
        *arm.all_near("nose edge out of line", [x - x0 for x in ends], 0.0, SLACK),
        *arm.all_near("bolt at its place", [hypot(*d.centre) for d in arm.drills], 0.0, SLACK),
        *pin_checks(plate.name, [pin]),
        plate.near("pin against the arm's rear edge", pin.centre[0] - pin.diameter / 2, x1, SLACK),
        plate.check("pin beside the nose", pin.centre[1] - y0, 2.0, 20.0),
    ]


def _shoe_checks(plate: Drawn, shoe: Drawn, long: Sequence[Contour]) -> list[Check]:
    """A shoe under either end, slot on slot, the far one's edge flush with the plate's."""
    slot = next(h for h in shoe.holes if any(e.is_arc for e in h.edges()))
    return [
        *(
            shoe.near("slot under the plate's", a, b, SLACK)
            for of in long
            for a, b in zip(slot.bounds[::2], of.bounds[::2], strict=True)
        ),
        shoe.near("slot in its middle", slot.centroid[1], 0.0, SLACK),
        shoe.near(
            "far edge flush with the plate's",
            long[-1].centroid[1] + shoe.outline.bounds[3],
            plate.outline.bounds[3],
            SLACK,
        ),
        *(
            shoe.near("as long as the plate", a, b, SLACK)
            for a, b in zip(shoe.outline.bounds[::2], plate.outline.bounds[::2], strict=True)
        ),
    ]


def _guide_checks(base: Drawn, guide: Drawn) -> list[Check]:
    """On its line, its screws over the base's holes."""
    line = base.lines["guide's edge"]
    left, low = float(line[:, 0].min()), float(line[:, 1].mean())
    ours = [(left + d.centre[0], low + d.centre[1]) for d in guide.drills]
    away = [
        min((hypot(x - d.centre[0], y - d.centre[1]) for d in base.drills), default=np.inf) for x, y in ours
    ]
    return [
        guide.near("line on the base level", float(np.ptp(line[:, 1])), 0.0, SLACK),
        guide.near("working edge", guide.outline.bounds[1], 0.0, SLACK),
        *guide.all_near("screw over the base's hole", away, 0.0, OVER),
    ]
