"""What the steps of several stages ask of the plan's pieces, and how their operations are numbered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from jigs.parts.part import Part
from jigs.plans.plan import Plan
from jigs.stages.boards.plan.lots import Piece, wanted
from jigs.work.by_ring import Run

MOST = 16  # kinds of parts told in one step
PIECES: Mapping[Piece, str] = {
    "stave": "staves",
    "base": "disc",
    "upright": "solid piece",
    "plug": "core plug",
    "knob": "knob",
    "spacer": "between",
    "ring strip": "between rings",
}


def piece_of(plan: Plan, run: Run) -> str:
    """What its pieces are, where they are not segments."""
    found = {PIECES.get(plan.wood.lot(lot).piece, "") for lot in run.lots}
    return found.pop() if len(found) == 1 else ""


def spares_of(plan: Plan, runs: Sequence[Run]) -> list[int]:
    """How many of each run's pieces are spare; none is told of a layup's."""
    return [sum(plan.wood.lot(lot).spares for lot in run.lots) for run in runs]


def segments_sawn(plan: Plan) -> int:
    """From strips and from layups, spares among them."""
    strips = wanted(lot for lot in plan.wood.lots if lot.piece == "segment")
    return strips + sum(layup.blocks for layup in plan.layups)


def nth(number: int) -> str:
    """What an id ends in: nothing for the first of its kind, then "-2", "-3"."""
    return "" if number == 1 else f"-{number}"


def by_page(parts: Sequence[Part]) -> Iterator[tuple[str, Sequence[Part]]]:
    """As many as one step tells, in their order, with what its id ends in."""
    return ((nth(1 + k // MOST), parts[k : k + MOST]) for k in range(0, len(parts), MOST))
