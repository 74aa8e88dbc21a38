"""Whether a lid lies on its pot, whole and with room to move."""

from __future__ import annotations

from collections.abc import Iterator

from geometry.plane.profile import Profile
from geometry.records import replace
from jigs.asked.inside import inside_of
from jigs.asked.jobfile.lid import HAIR, LEAST_SEAT, through_floor
from jigs.asked.vessel_job import VesselJob
from jigs.stages.lid.plan import LEAST_BEARS, LidPlan
from jigs.words.findings import Finding

LOOSE = 1.0  # mm all round at the driest, which is worth a note. Common practice, no source
APART = 0.3  # mm, least from the pot's rim to a lid that lies on the ledge. Common practice, no source
SHOWS = 1.0  # mm from rim to lid, over which the gap is seen. Common practice, no source
BELOW = 1.0  # mm, least under the flange's end


def lid_findings(job: VesselJob, lid: LidPlan | None) -> Iterator[Finding]:
    """Everything about it; nothing for what is no lid."""
    if lid is None:
        return
    yield from _bears(job, lid)
    yield from _deep(job, lid)
    yield from _apart(job, lid)
    yield from _wood(job, lid)


def through_findings(job: VesselJob) -> Iterator[Finding]:
    """A flange that would reach through the floor of its pot: there is no mouth to fit it to."""
    if job.lid is None or job.pot is None or not through_floor(job.lid, inner := inside_of(job.pot.job)):
        return
    deep, straight = job.show(inner.end[1] - inner.bottom), _straight(inner)
    message = f"a flange of {job.show(job.lid.seat)} goes through the floor of its pot, {deep} deep"
    shorter = "use a shorter seat"
    if straight >= LEAST_SEAT:
        shorter = f"use a seat of at most {job.at_most(straight)}: below it the pot narrows"
    yield job.finding("lid-deep", message, key="lid.seat", remedy=shorter)


def _straight(inner: Profile) -> float:
    """How far down the pot is as wide as its mouth."""
    radius, rim = inner.end
    low, high = inner.bottom, rim
    while high - low > HAIR:
        middle = (low + high) / 2
        as_wide = inner.radii(middle, rim)[0] >= radius - HAIR
        low, high = (low, middle) if as_wide else (middle, high)
    return rim - high


def _bears(job: VesselJob, lid: LidPlan) -> Iterator[Finding]:
    if lid.bears >= LEAST_BEARS - 1e-9:
        return
    show = job.show
    what = f"the pot's {lid.rests}"
    bears = f"lies on {show(max(0.0, lid.bears))} of {what}" if lid.bears > 0 else f"falls past {what}"
    message = f"the lid {bears} when its wood is driest and it is pushed to one side; {show(LEAST_BEARS)} is the least"
    remedy = (
        f"let the profile end at least {job.at_least(lid.least_rim)} across, or use a closer fit"
        if lid.rests == "rim"
        else "use a wider rebate in the pot, or a closer fit"
    )
    yield job.finding(
        "lid-bears", message, key="lid.seat" if lid.rests == "ledge" else "profile", remedy=remedy
    )


def _deep(job: VesselJob, lid: LidPlan) -> Iterator[Finding]:
    if lid.rests == "rim" and lid.over_floor < BELOW:
        show, most = job.show, lid.seat + lid.over_floor - BELOW
        message = f"a flange of {show(lid.seat)} leaves {show(max(0.0, lid.over_floor))} under it in the pot"
        yield job.finding(
            "lid-deep", message, key="lid.seat", remedy=f"use a seat of at most {job.at_most(most)}"
        )


def _apart(job: VesselJob, lid: LidPlan) -> Iterator[Finding]:
    """One that lies on the ledge must not touch the rim too, nor stand off it so far that it shows."""
    if lid.rests != "ledge" or not lid.overhangs:
        return
    show, least = job.show, job.at_least(lid.seat - lid.over + APART)
    if lid.over < APART - 1e-9:
        message = (
            f"a flange of {show(lid.seat)} lets the lid lie on the pot's ledge and its rim at once: it rocks"
        )
        yield job.finding("lid-twice", message, key="lid.seat", remedy=f"use a seat of at least {least}")
    elif lid.over > SHOWS + 1e-9:
        message = (
            f"the lid lies on the pot's ledge by its flange of {show(lid.seat)}, so that it stands {show(lid.over)} "
            "off the rim all round, and the gap shows"
        )
        seat, deep = lid.seat - lid.over + APART, lid.seat - APART
        ways = [f"use a seat of {least}"] if seat >= LEAST_SEAT else []
        ways += [f"make the pot's rebate {job.at_most(deep)} deep"] if _has_ledge_at(job, deep) else []
        remedy = ", or ".join(ways) or "use a shorter seat, and a deeper rebate in the pot"
        yield job.warning("lid-stands-off", message, key="lid.seat", remedy=remedy)


def _has_ledge_at(job: VesselJob, deep: float) -> bool:
    """Whether the pot has an inside with its rebate so deep."""
    if job.pot is None:
        return False
    pot = job.pot.job
    try:
        inside_of(replace(pot, rebate=replace(pot.rebate, depth=deep)))
    except ValueError:
        return False
    return True


def _wood(job: VesselJob, lid: LidPlan) -> Iterator[Finding]:
    if lid.solid_found and not lid.solid_taken:
        message = "the flange is turned from a solid disc, which moves more than the ring its fit was worked out for"
        yield job.finding("lid-wood", message, key="rings.base", remedy='state base = "solid" in [rings]')
    if lid.fit.widest > LOOSE:
        show = job.show
        message = (
            f"in the driest air the flange has {show(lid.fit.widest)} all round, so that it has "
            f"{show(lid.fit.least)} in the dampest"
        )
        remedy = (
            "turn the flange in a ring of segments: it moves far less than a disc" if lid.solid_taken else ""
        )
        yield job.note("lid-loose", message, key="lid.fit", remedy=remedy)
