"""All pictures of a job's work, by id."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from jigs.figures import sheets
from jigs.figures.figure import Figure
from jigs.figures.told import Show
from jigs.files.sheets.nesting import nest
from jigs.forms.plan import Plan
from jigs.parts.part import Part


def figures_of(plan: Plan, parts: Sequence[Part], show: Show) -> dict[str, Figure]:
    """`show` tells a quantity in the job's unit."""
    by_name = {part.name: part for part in parts}
    lying = sheets.figures(plan.job.name, nest(parts, plan.job.workshop, plan.job.unit))
    return {figure.id: figure for figure in (*lying, *_of_form(plan, by_name, show))}


def _of_form(plan: Plan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    if plan.kind == "vessel":
        from jigs.figures.of_vessel import figures as of_vessel

        return of_vessel(plan, parts, show)
    from jigs.figures.of_torus import figures as of_torus

    return of_torus(plan, parts, show)
