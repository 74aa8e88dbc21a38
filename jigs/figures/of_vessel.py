"""The pictures of a vessel's work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jigs.figures.figure import Figure
from jigs.figures.told import Show
from jigs.part import Part
from jigs.plan.vessel import VesselPlan


def figures(plan: VesselPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """In the order of the work."""
    yield from ()
