"""The pictures of a vessel's work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jigs.figures import lathe
from jigs.figures.figure import Figure
from jigs.figures.saws import flat_sled, stave_sled
from jigs.figures.told import Show
from jigs.part import Part
from jigs.plan.vessel import VesselPlan


def figures(plan: VesselPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """In the order of the work."""
    yield from _saws(plan, show)
    yield from lathe.figures(plan, parts, show)


def _saws(plan: VesselPlan, show: Show) -> Iterator[Figure]:
    for k, sled in enumerate(plan.saws.sleds, 1):
        yield flat_sled.built(sled, show)
        yield flat_sled.set_up(sled, f"-{k}" if k > 1 else "", show)
    if plan.saws.staves:
        own, turned = plan.saws.staves.layout, plan.job.workshop.saw.tilts == "left"
        yield stave_sled.built(own, turned, show)
        for cut in (1, 2):
            yield stave_sled.edge(own, cut, turned, show)
