"""All pictures of a job's work, by id."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.figures.figure import Figure
from jigs.figures.told import Show
from jigs.part import Part
from jigs.plan import Plan


def figures_of(plan: Plan, parts: Sequence[Part], show: Show) -> dict[str, Figure]:
    """`show` tells a quantity in the job's unit."""
    by_name = {part.name: part for part in parts}
    if plan.kind == "vessel":
        from jigs.figures.of_vessel import figures as of_vessel

        return {figure.id: figure for figure in of_vessel(plan, by_name, show)}
    from jigs.figures.of_torus import figures as of_torus

    return {figure.id: figure for figure in of_torus(plan, by_name, show)}
