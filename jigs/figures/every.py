"""All pictures of a job's work, by id."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from jigs.figures import sheets
from jigs.figures.figure import Figure
from jigs.figures.told import Show
from jigs.files.sheets.nesting import nest
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form

if TYPE_CHECKING:  # what only one form needs is loaded for that form
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan


def figures_of(plan: Plan, parts: Sequence[Part], show: Show) -> dict[str, Figure]:
    """`show` tells a quantity in the job's unit."""
    by_name = {part.name: part for part in parts}
    lying = sheets.figures(plan.job.name, nest(parts, plan.job.workshop, plan.job.unit))
    return {figure.id: figure for figure in (*lying, *_of_form(plan, by_name, show))}


def _of_form(plan: Plan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    def of_torus(own: TorusPlan) -> Iterator[Figure]:
        from jigs.figures.of_torus import figures

        return figures(own, parts, show)

    def of_vessel(own: VesselPlan) -> Iterator[Figure]:
        from jigs.figures.of_vessel import figures

        return figures(own, parts, show)

    return by_form(plan, torus=of_torus, vessel=of_vessel)
