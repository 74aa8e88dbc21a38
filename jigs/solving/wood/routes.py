"""The two ways to make a torus's rings, each worked out down to its boards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from geometry.sawing import WedgeRingCut
from geometry.torus import Blank
from jigs.job import TorusJob
from jigs.job_wood import Route
from jigs.plan.cutting import CuttingPlan
from jigs.plan.wood.lots import Lot
from jigs.plan.wood.routes import RoutePlan
from jigs.plan.wood.stock import Shortage, WoodClass
from jigs.solving.wood.boards import wood_classes
from jigs.solving.wood.bought import widened
from jigs.solving.wood.glue import torus_glue
from jigs.solving.wood.grain import torus_grain
from jigs.solving.wood.steps import grouped
from jigs.solving.wood.torus_lots import route_lots

Species = Sequence[Sequence[str]]
Tubes = tuple[tuple[int, float], ...]
Stocked = tuple[tuple[WoodClass, ...], tuple[Shortage, ...]]


def tubes_of(lots: Sequence[Lot], segments: int) -> Tubes:
    """How many tubes of staves, and their length, for each pattern of woods round the ring."""
    staves = grouped((lot for lot in lots if lot.way == "bevelled"), lambda lot: lot.rings)
    return tuple((sum(lot.count for lot in same) // segments, same[0].longer) for same in staves.values())


def torus_routes(
    job: TorusJob,
    blank: Blank,
    ring_cut: WedgeRingCut,
    cutting: CuttingPlan,
    species: tuple[tuple[str, ...], ...],
    spares: tuple[tuple[int, ...], ...],
    lots: tuple[Lot, ...],
    stocked: Stocked,
) -> tuple[RoutePlan, ...]:
    """The route that is taken, from its lots and boards, then the other."""
    taken = job.form.route
    other: Route = "staves" if taken == "segments" else "segments"
    others = route_lots(job, blank, ring_cut, cutting, species, spares, other)
    return (
        _route(job, taken, blank, cutting, len(spares), lots, stocked),
        _route(job, other, blank, cutting, len(spares), others, wood_classes(widened(job, others), others)),
    )


def _route(
    job: TorusJob,
    route: Route,
    blank: Blank,
    cutting: CuttingPlan,
    spare_rings: int,
    lots: tuple[Lot, ...],
    stocked: Stocked,
) -> RoutePlan:
    classes, shortages = stocked
    own = replace(job, form=replace(job.form, route=route))
    tubes = tubes_of(lots, blank.segments)
    return RoutePlan(
        route=route,
        chosen=route == job.form.route,
        pieces=sum(lot.wanted for lot in lots),
        cuts=_crosscuts(classes) + _bevels(lots) + _slices(blank.wedge_rings + spare_rings, tubes),
        area=sum(
            board.count * board.width * board.length
            for of in classes
            for board in of.taken
            if board.rest_of is None
        ),
        volume=sum(of.volumes.stock for of in classes),
        bought=sum(board.count for of in classes for board in of.taken if board.bought),
        glue_area=torus_glue(own, blank, cutting.carrier.cut.length, spare_rings, tubes, ()).area,
        weak_joints=sum(joint.count for joint in torus_grain(own, blank, ()).joints if joint.weak),
        longest=max(lot.longer for lot in lots),
        short=bool(shortages),
    )


def _crosscuts(classes: Sequence[WoodClass]) -> int:
    """One more than its pieces for every strip."""
    return sum(
        board.count * cut.strips * (cut.pieces + 1)
        for of in classes
        for board in of.boards
        for cut in board.strips
    )


def _bevels(lots: Sequence[Lot]) -> int:
    return sum(2 * lot.wanted for lot in lots if lot.way == "bevelled")


def _slices(rings: int, tubes: Tubes) -> int:
    """A cut for every ring, and one more at the end of every tube."""
    return rings + sum(count for count, _ in tubes) if tubes else 0
