"""What holds each piece, and how far the sled for wedge rings bends: worked out by statics."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import floor, inf
from typing import TYPE_CHECKING

from geometry.statics.holding import Holding
from geometry.statics.lathe_holding import TOOL_FORCE
from jigs.plans.plan import Plan
from jigs.stages.held.plan import HeldCut
from jigs.stages.held.statics.stiffness import ALLOWED
from jigs.words.quantity import Quantity, calliper
from jigs.work.model import Cell, Column, Table, listed

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan
    from jigs.plans.vessel import VesselPlan

COLUMNS = (
    Column("piece", "Piece"),
    Column("where", "Where"),
    Column("times", "Held against so many times the push", "ratio"),
    Column("by", "By"),
)
RINGS_IN = ("first cut", "second cut", "second cut, on the end wedge")
PINNED = "friction and pins"


def of_torus(plan: TorusPlan) -> Sequence[Table]:
    """What holds each piece, and what the clamps do to the sled for wedge rings."""
    return (*_held(plan, _torus(plan)), _strained(plan))


def of_vessel(plan: VesselPlan) -> Sequence[Table]:
    """What holds each piece."""
    return _held(plan, _vessel(plan))


def _held(plan: Plan, own: Iterable[tuple[Cell, ...]]) -> Sequence[Table]:
    rows = (*own, *(row for one in plan.layup_jigs for row in _pieces("layup sleds", one.held)))
    return (Table("held-pieces", "What holds each piece", COLUMNS, rows),) if rows else ()


def _torus(plan: TorusPlan) -> Iterator[tuple[Cell, ...]]:
    yield from _pieces("segment carrier", plan.cutting.held)
    yield from _pieces("plan-angle sled", plan.cutting.flat_held)
    for where, holding in zip(RINGS_IN, plan.rings_held, strict=False):
        yield "wedge ring", where, _times(holding), "draw rod, jaw and stop, no friction"
    for mounting in plan.mountings.held:
        if not mounting.pull:  # a bolt's is told where it is drawn
            yield "blank", "on the first board", _down(mounting.strength / TOOL_FORCE), "glue on its flats"


def _vessel(plan: VesselPlan) -> Iterator[tuple[Cell, ...]]:
    for sled in plan.saws.sleds:
        yield from _pieces(sled.called, sled.held)
    if plan.saws.staves:
        yield from _pieces("stave sled", plan.saws.staves.held)


def _pieces(where: str, cuts: Iterable[HeldCut]) -> Iterator[tuple[Cell, ...]]:
    """Each piece in the cut in which it is held the least."""
    least: dict[str, HeldCut] = {}
    for cut in cuts:
        least[cut.what] = min(least.get(cut.what, cut), cut, key=lambda one: one.grip)
    for cut in least.values():
        if cut.held:
            yield cut.what, where, _down(cut.grip), PINNED


def _times(holding: Holding) -> float | None:
    """Nothing where no push moves it."""
    return None if holding.strength == inf else _down(holding.strength / holding.force)


def _down(times: float) -> float:
    """To the second place; never told better than it is."""
    return floor(100 * times) / 100


def _strained(plan: TorusPlan) -> Table:
    """How far fence, rod, jaw and bridge bend, or how near they come to what they take."""
    strained = plan.sled_strained
    bridge = strained.bridge
    return listed(
        "strained",
        "The sled for wedge rings under its clamps and the cut",
        (
            calliper("fence", "Its fence bends back by", strained.fence),
            calliper("fence.allowed", "It may bend by", ALLOWED),
            Quantity("rod", "Draw rod, its knob turned hard: share of yield", strained.rod, "share"),
            Quantity("jaw", "Jaw under its screw: share of what breaks it", strained.jaw, "share"),
            *(
                [Quantity("bridge", "Bridge, leant on: share of what breaks it", bridge, "share")]
                if bridge is not None
                else []
            ),
        ),
    )
