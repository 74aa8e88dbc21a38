"""The two ways to make a torus's rings, side by side."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.job import Job, Unit
from jigs.plan.wood.routes import RoutePlan
from jigs.plan.wood.whole import WoodPlan
from jigs.words.amounts import area_text, volume_text
from jigs.words.sections import Row, Section
from jigs.words.wood.numbers import count_text

NAMES = {"segments": "mitred segments", "staves": "bevelled staves, glued to tubes and sliced"}


def routes_section(job: Job, wood: WoodPlan) -> Section:
    """One block of rows for each."""
    rows = tuple(row for route in wood.routes for row in _route(job, route))
    return Section(
        "Two ways to make the rings",
        rows,
        (
            "Staves are fewer and longer, and their edges are long grain; but their slices meet at the wedge faces end "
            "grain to end grain. Segments show long grain all round, and glue long grain from ring to ring.",
            "form.route chooses; staves need a sled of your own for their tubes (cutting.own_stave_sled).",
        ),
    )


def _route(job: Job, route: RoutePlan) -> Iterator[Row]:
    name = route.route
    yield Row(name, f"{NAMES[name]}: {'this plan' if route.chosen else 'the other way'}", "text")
    yield Row(f"{name}: pieces, spares among them", route.pieces, "count")
    yield Row(f"{name}: cuts", route.cuts, "count")
    yield Row(f"{name}: whole boards used", _boards(route, job.unit), "text")
    if route.short:
        yield Row(f"{name}: boards", "not all pieces can be had from boards of these sizes", "text")
    yield Row(f"{name}: glued", route.glue_area, "area")
    yield Row(f"{name}: end grain joints that nothing else holds", route.weak_joints, "count")
    yield Row(f"{name}: longest piece", route.longest)


def _boards(route: RoutePlan, unit: Unit) -> str:
    bought = f"{count_text(route.bought, 'board')} bought"
    return f"{area_text(route.area, unit)}, {volume_text(route.volume, unit)}, {bought}"
