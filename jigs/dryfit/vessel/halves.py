"""A vessel built in halves: each half's gauges in it, the joint's sticks, and the ring's rebates in the wall."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import shapely

from geometry.bodies.lots import lower_lot, upper_lot
from jigs.dryfit.check import Check, near
from jigs.dryfit.files import Files
from jigs.dryfit.plates import Plate
from jigs.dryfit.vessel.inside import inside_checks
from jigs.dryfit.vessel.rings import Held
from jigs.dryfit.vessel.sizes import mouth_checks
from jigs.dryfit.vessel.work import FAR, Work

SLACK = 0.03  # mm
LEDGE = 2.0  # mm of wall that the centring ring lies on, least
LEAST_WASTE = 1.0  # mm over the rim
STEP = 0.01  # mm
CLEAR = 0.3  # mm that the ring stays behind the inside


def halves_checks(work: Work, files: Files, rings: list[Held]) -> list[Check]:
    """The gauges of both halves against what meets at the joint."""
    lower, upper = _lots(work, rings)
    sticks = [files.plate(name) for name in files.numbered("joint-stick")]
    return [
        *inside_checks(lower, files, "lower-"),
        *inside_checks(upper, files, "upper-"),
        *mouth_checks(lower, sticks),
        near("halves", "lower inside meets the upper at the joint", _opening(lower), _opening(upper), SLACK),
        *_rebate(lower, upper, files.plate("joint-gauge")),
    ]


def _lots(work: Work, rings: list[Held]) -> tuple[Work, Work]:
    """Both halves, each with its joint up; the upper one's foot is the top of the stack."""
    joint = next(held.top for held in rings if held.number == work.job.halves.ring)
    waste = max(LEAST_WASTE, rings[-1].top - work.height)
    lots = lower_lot(work.section, joint), upper_lot(work.section, joint, waste)
    lower, upper = (replace(work, section=lot) for lot in lots)
    return lower, upper


def _opening(lot: Work) -> float:
    return float(lot.inside(0.0).coords[-1][0])


def _rebate(lower: Work, upper: Work, gauge: Plate) -> list[Check]:
    """What the gauge's GO lets be turned into either half: its ring finds a ledge, and glue outside it."""
    across, wide, deep = _ends(gauge)
    least, found = lower.job.rings.least_glue, list[Check]()
    for name, lot in (("lower", lower), ("upper", upper)):
        heights = [lot.height - deep, lot.height - deep / 2, lot.height]
        inner = max(_radius(lot, z)[0] for z in heights)
        outer = min(_radius(lot, z)[1] for z in heights)
        found += [
            Check(
                gauge.name, f"glue face outside the rebate, {name} half", outer - across / 2, least - SLACK
            ),
            Check(
                gauge.name, f"ledge under the ring, {name} half", across / 2 - inner - CLEAR, LEDGE - SLACK
            ),
        ]
    return [Check(gauge.name, "TOO WIDE over GO by", wide - across, 0.1, 0.4), *found]


def _radius(lot: Work, z: float) -> tuple[float, float]:
    """Of the finished wall at a height."""
    line = lot.solid.intersection(shapely.LineString([(0.0, z - STEP), (FAR, z - STEP)]))
    low, _, high, _ = line.bounds
    return low, high


def _ends(gauge: Plate) -> tuple[float, float, float]:
    """The round that its lower end touches and its upper one, and how far its ends stand out from its arms."""
    _, low, _, high = gauge.face.bounds
    lower, upper = (_across(gauge, y) for y in (low + 1.0, high - 1.0))
    arms = sorted({round(y, 3) for _, y in gauge.face.exterior.coords})
    return hypot(lower, gauge.thickness), hypot(upper, gauge.thickness), arms[1] - arms[0]


def _across(gauge: Plate, y: float) -> float:
    line = shapely.Polygon(gauge.face.exterior).intersection(shapely.LineString([(-FAR, y), (FAR, y)]))
    left, _, right, _ = line.bounds
    return right - left
