"""Rings that are glued already, as the readings have them: where they stand, and whether they hold the vessel."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import zip_longest

from jigs.asked.vessel_job import VesselJob
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.model import Check
from jigs.dryfit.ring import glued_already
from jigs.dryfit.vessel.outside import pieces
from jigs.dryfit.vessel.rings import Held, placed, rings_of
from jigs.dryfit.vessel.work import Work, work_of

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
