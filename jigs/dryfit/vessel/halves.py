"""A vessel built in parts: each part's gauges in it, the joint's sticks, and the ring's rebates in the wall."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import hypot

import shapely

from geometry.bodies.tiers import lower_tier, upper_tier
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Plate, near, spans
from jigs.dryfit.vessel.inside import inside_checks
from jigs.dryfit.vessel.rings import Held
from jigs.dryfit.vessel.sizes import mouth_across, mouth_checks
from jigs.dryfit.vessel.work import FAR, Work

SLACK = 0.03  # mm
LEDGE = 2.0  # mm of wall that the centring ring lies on, least
LEAST_WASTE = 1.0  # mm over the rim
STEP = 0.01  # mm
CLEAR = 0.3  # mm that the ring stays behind the inside


def halves_checks(work: Work, files: Files, rings: list[Held]) -> list[Check]:
    """The gauges of all parts against what meets at the joints."""
    own = work.job.halves.ring or ()
    heights = [next(held.top for held in rings if held.number == ring) for ring in own]
    tiers, found = _tiers(work, rings[-1].top, heights), list[Check]()
    for tier, gauge in zip(tiers, _gauges(len(tiers)), strict=True):
        found += inside_checks(tier, files, gauge)
    for k, height in enumerate(heights):
        mark = f"-{k + 1}" if len(heights) > 1 else ""
        sticks = [files.plate(name) for name in files.numbered(f"joint-stick{mark}")]
        below, above = replace(work, section=lower_tier(work.section, height)), tiers[k + 1]
        met = f"inside under the joint over ring {own[k]} meets the one over it"
        found += [
            *mouth_checks(above if k else min(below, above, key=_narrow), sticks),
            near("halves", met, _opening(below), _opening(above), SLACK),
            *_rebate(below, above, files.plate(f"joint-gauge{mark}")),
        ]
    return found


def _narrow(tier: Work) -> float:
    """Its opening while most is left: both parts of a joint are hollowed to the narrower."""
    return mouth_across(tier, tier.job.gauges.stages[0])


def _gauges(count: int) -> list[str]:
    """How the names of each part's inside gauges begin, from the foot up."""
    between = (f"middle-inside-gauge-{k}" for k in range(2, count))
    return ["lower-inside-gauge", *between, "upper-inside-gauge"]


def _tiers(work: Work, top: float, heights: list[float]) -> list[Work]:
    """Each part with its joint up; the foot of all but the lower one is over its top, the rings' or the joint's."""
    found = [lower_tier(work.section, heights[0])]
    for low, high in pairwise(heights):
        found.append(upper_tier(lower_tier(work.section, high), low, LEAST_WASTE))
    found.append(upper_tier(work.section, heights[-1], max(LEAST_WASTE, top - work.height)))
    return [replace(work, section=tier) for tier in found]


def _opening(tier: Work) -> float:
    return float(tier.inside(0.0).coords[-1][0])


def _rebate(lower: Work, upper: Work, gauge: Plate) -> list[Check]:
    """What the gauge's GO lets be turned into either part: its ring finds a ledge, and glue outside it."""
    across, wide, deep = _ends(gauge)
    least, found = lower.job.rings.least_glue, list[Check]()
    for name, tier in (("below", lower), ("above", upper)):
        heights = [tier.height - deep, tier.height - deep / 2, tier.height]
        inner = max(_radius(tier, z)[0] for z in heights)
        outer = min(_radius(tier, z)[1] for z in heights)
        found += [
            Check(gauge.name, f"glue face outside the rebate, {name}", outer - across / 2, least - SLACK),
            Check(gauge.name, f"ledge under the ring, {name}", across / 2 - inner - CLEAR, LEDGE - SLACK),
        ]
    return [Check(gauge.name, "TOO WIDE over GO by", wide - across, 0.1, 0.4), *found]


def _radius(tier: Work, z: float) -> tuple[float, float]:
    """Of the finished wall at a height."""
    line = tier.solid.intersection(shapely.LineString([(0.0, z - STEP), (FAR, z - STEP)]))
    low, _, high, _ = line.bounds
    return low, high


def _ends(gauge: Plate) -> tuple[float, float, float]:
    """The round that its lower end touches and its upper one, and how far its ends stand out from its arms."""
    _, low, _, high = gauge.face.bounds
    at_ends = (spans(gauge.face, low + 1.0), spans(gauge.face, high - 1.0))
    lower, upper = (parts[-1][1] - parts[0][0] for parts in at_ends)
    arms = sorted({round(y, 3) for _, y in gauge.face.exterior.coords})
    return hypot(lower, gauge.thickness), hypot(upper, gauge.thickness), arms[1] - arms[0]
