"""What is glued before the whole: rings as the readings have them, and the parts of a vessel that is built in parts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise, zip_longest
from math import hypot

import shapely

from geometry.bodies.tiers import lower_tier, upper_tier
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.model import Check, Plate, near, spans
from jigs.dryfit.ring import glued_already
from jigs.dryfit.vessel.inside import inside_checks
from jigs.dryfit.vessel.outside import pieces
from jigs.dryfit.vessel.rings import Held, placed, rings_of
from jigs.dryfit.vessel.sizes import mouth_across, mouth_checks
from jigs.dryfit.vessel.work import FAR, Work, work_of

GROWN, UP_TO = "stack.", ".up-to."
RULE = 0.5  # mm that a rule may be out, where the readings say nothing else


def tops_read(job: VesselJob) -> dict[int, float]:
    """Heights of the tops of rings over the stack's foot: as read, or by the heights of rings that are stated."""
    own = {n: one.value for n, one in enumerate(job.readings.each("glued.height"), 1) if one is not None}
    top, found = 0.0, dict[int, float]()
    for number, _, height in placed(work_of(job))[: glued_already(job)]:
        found[number] = top = top + own.get(number, height)
    ids = [id for id in job.readings.under(GROWN) if UP_TO in id]
    read = {int(id.rpartition(".")[2]): job.readings.length(id, "rule") for id in ids}
    return {**found, **{number: one.value for number, one in read.items() if one is not None}}


def _own(job: VesselJob) -> dict[int, tuple[float | None, float | None]]:
    """Outside and opening, across, of rings that are stated to be glued."""
    across, opening = (job.readings.each(f"glued.{name}") for name in ("across-flats", "opening"))
    sizes = zip_longest(across, opening)
    return {n: (a.value if a else None, b.value if b else None) for n, (a, b) in enumerate(sizes, 1)}


def standing(job: VesselJob, files: Files) -> Work:
    """The blank's rings round those that stand; the faceplate where the set's outside gauges have their foot."""
    work, tops = work_of(job), tops_read(job)
    if not glued_already(job) and not _moved(work, tops):
        return work
    first = pieces(files, stages_of(work.job)[0][0])[0]
    faceplate, last = float(first.face.bounds[1]), max(tops)
    top = faceplate + job.rings.waste_block + tops[last]
    return replace(work, glued=(last, top), faceplate=faceplate, own=_own(job))


def _moved(work: Work, tops: Mapping[int, float]) -> bool:
    """Whether any stands elsewhere than planned, as well as a rule tells, in a stack that is then planned anew."""
    job = work.job
    if job.staves or job.rings.base == "floating":
        return False
    planned = {number: low + height + job.rings.turning_allowance for number, low, height in placed(work)}
    accuracy = job.readings.accuracy["rule"]
    return any(abs(top - planned[number]) > accuracy for number, top in tops.items() if number in planned)


def glued_checks(work: Work, cup: Work, tops: Mapping[int, float]) -> list[Check]:
    """Each glued ring, where it stands over the faceplate, round the vessel as its gauges stand."""
    if work.glued is None or work.faceplate is None:
        return []
    shift, low = 0.0, work.faceplate + work.job.rings.waste_block
    foot, found = low, list[Check]()
    for ring in _as_cut(work):
        planned = ring.top + work.job.rings.turning_allowance
        shift = tops.get(ring.number, planned + shift) - planned
        high = foot + planned + shift
        found += _round(cup, ring, low, high)
        low = high
    return found


def _as_cut(work: Work) -> list[Held]:
    count = work.glued[0] if work.glued else 0
    return [ring for ring in rings_of(work) if ring.number <= count]


def _round(cup: Work, ring: Held, low: float, high: float) -> Iterator[Check]:
    need = cup.needs(low, high, 0.0)
    if need is None:
        return
    where, left = f"ring {ring.number}", cup.job.gauges.sanding_allowance
    yield Check(where, "glued: wood outside", ring.most - need[1], left - RULE / 10)
    if need[0] > 0 and not ring.plugged and ring.least > 0:
        yield Check(where, "glued: wood inside", need[0] - ring.least, left - RULE / 10)


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
            gauge.check(f"glue face outside the rebate, {name}", outer - across / 2, least - SLACK),
            gauge.check(f"ledge under the ring, {name}", across / 2 - inner - CLEAR, LEDGE - SLACK),
        ]
    return [gauge.check("TOO WIDE over GO by", wide - across, 0.1, 0.4), *found]


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
