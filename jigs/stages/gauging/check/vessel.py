"""What no gauge of a vessel reaches, and no tool in the hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from geometry.bodies.section import Section
from geometry.lathe.inside_reach import neck
from jigs.asked.defaults import LEAST_NECK
from jigs.asked.vessel_job import VesselJob
from jigs.stages.gauging.plan.vessel import VesselGauges
from jigs.words.findings import Finding
from jigs.words.lengths import MM_PER_INCH, Unit

# Of a tool past its rest that hands alone hold: common practice, no source.
MOST_REACH: dict[Unit, float] = {"mm": 300.0, "in": 12 * MM_PER_INCH}
SAME = 0.5  # mm wider than its neck, at which a mouth is one


def gauge_findings(
    job: VesselJob, section: Section, gauges: VesselGauges, halves: Sequence[int] | None = None
) -> list[Finding]:
    """Notes: heights inside that go unguided, and a rim that takes no wall gauge; a warning of a deep inside; a neck
    that lets in no tool.

    `halves` are rings with which gauges reach everywhere, if the vessel is built in parts that meet over them.
    """
    return [
        *_inside(job, section, gauges, halves),
        *_wall(job, gauges),
        *_deep(job, section),
        *_neck(job, section),
    ]


def _deep(job: VesselJob, section: Section) -> Iterator[Finding]:
    show, deep, most = job.show, section.height - section.inner.bottom, MOST_REACH[job.unit]
    if job.halves.ring is not None or deep <= most:
        return
    yield job.warning(
        "deep-inside",
        f"the inside is {show(deep)} deep; past a rest that stays outside, hands hold a tool up to {show(most)} or "
        "so, and no further than its maker allows",
        key="profile",
        remedy="build it in parts, each hollowed from its joint, by [halves], or use a tool that a rig holds, and "
        "let a steady rest carry the rim",
    )


def _neck(job: VesselJob, section: Section) -> Iterator[Finding]:
    found, least, show = neck(section.inner), LEAST_NECK[job.unit], job.show
    if found is None or 2 * found[0] >= least - 1e-6 or job.halves.ring is not None:
        return
    radius, height = found
    word, at_mouth = job.called, radius > section.mouth_radius - SAME
    floored = not at_mouth and not section.through
    yield job.finding(
        "inside-neck",
        f"at height {show(height)} the inside is {show(2 * radius)} across and widens below; a tool that hollows there "
        f"needs {show(least)}",
        key="wall.floor" if floored else "profile",
        remedy=f"a {word.floor} that ends over that height, or an [inside] of its own"
        if floored
        else f"a wider {word.mouth if at_mouth else 'outside there'}, or a thinner wall",
        wants={"wall.floor": height - section.recess_depth},
    )


def _inside(
    job: VesselJob, section: Section, gauges: VesselGauges, halves: Sequence[int] | None
) -> Iterator[Finding]:
    if gauges.unguided is None or job.halves.ring is not None:
        return
    show, word, (low, high) = job.show, job.called, gauges.unguided
    if gauges.reach is None:
        got = "no inside gauge passes it"
    else:
        got = f"the inside gauges reach only {show(section.height - gauges.reach.low)} under the rim"
    yield job.note(
        "inside-unguided",
        f"the {word.mouth} is {show(2 * section.mouth_radius)} across, so {got}: {show(low)} to {show(high)} from the "
        f"{word.foot} nothing guides the inside",
        key="profile",
        remedy=_in_parts(halves)
        if halves
        else f"measure the wall there with a calliper that reaches in, or open the {word.mouth}",
    )


def _in_parts(rings: Sequence[int]) -> str:
    how, which = ("halves", rings[0]) if len(rings) == 1 else ("parts", list(rings))
    return f"build it in {how}, which gauges reach everywhere: ring = {which} in [halves]"


def _wall(job: VesselJob, gauges: VesselGauges) -> Iterator[Finding]:
    if gauges.wall is not None:
        return
    yield job.note(
        "no-wall-gauge",
        "the wall at the rim is too curved, or changes too fast, for a straight slot to go over it",
        key="wall",
        remedy="measure it with a calliper",
    )
