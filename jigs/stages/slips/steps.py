"""Slips slit off the outside of a board, and cut to length by hand in their box: the operations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from geometry.grouping import grouped
from jigs.plans.plan import Plan, by_form
from jigs.stages.boards.plan import RIPPED as LEAST
from jigs.stages.boards.plan import Lot
from jigs.stages.boards.runs import Run, batches, by_length, merged, run_of, through
from jigs.stages.slips.layout import SLIP_SANDED, SLIT_FROM
from jigs.stages.slips.parts import slip_box
from jigs.words.quantity import Quantity, calliper, ring_list, ruled
from jigs.work.minutes import CROSSCUT, RIPPED, SETTING, each
from jigs.work.model import Operation, Rack, Stage, at_bench, at_table_saw, right_if, uses
from jigs.work.steps import nth

if TYPE_CHECKING:  # a torus need not load it
    from jigs.plans.vessel import VesselPlan

ID = "slips"


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """Nothing where the segments touch each other or what stands between them is thick."""
    return [
        *_slit(plan),
        *(_cut(batch, rack, number) for number, batch in enumerate(batches(_by_length(plan)), 1)),
        *_leaves(plan),
    ]


def _slit(plan: Plan) -> Iterator[Operation]:
    """Off the outside of a strip or board that stays between blade and fence."""
    slips = {lot.number: lot for lot in plan.wood.lots if lot.slip and lot.way == "slit"}
    boards = [board for of in plan.wood.classes for board in of.boards]
    count = sum(board.count * cut.strips for board in boards for cut in board.strips if cut.lot in slips)
    if not count:
        return
    lots = list(slips.values())
    wide = lots[0].width
    run = run_of(
        "table saw",
        lots,
        (
            calliper("slip", "Slip as sawn", wide + SLIP_SANDED),
            Quantity(
                "rip-fence.step",
                "Move the rip fence towards the blade after each slip",
                wide + SLIP_SANDED + plan.job.workshop.saw.kerf,
            ),
            *_blades(lots),
            ruled("least-between", "Least wood between blade and fence", SLIT_FROM),
            calliper("sanded-to", "Sand on a flat board to", wide),
            *_lower(plan),
        ),
        count,
    )
    yield at_table_saw(
        f"{ID}.slit",
        "Slit the slips off the outside of a board or a wide strip.",
        how=(
            "You can buy them instead, as veneer of that thickness.",
            "Let every slip fall on the open side of the blade, never between the blade and the fence.",
            "Feather board before the blade, push block over the whole board.",
            "Move the rip fence towards the blade after each slip.",
            "Sand them on a flat board to their thickness.",
            *(TALLER if _lower(plan) else ()),
        ),
        makes=(run.pieces, "slip"),
        rings=run.rings,
        settings=run.settings,
        trial="one slip off a scrap board",
        checks=right_if(
            "thickness",
            "Calliper over the slip at both ends and in the middle",
            if_not="thick: sand on; thin: it serves as scrap",
        ),
        cautions=("table-saw.rip", "table-saw"),
        minutes=each(run.pieces, RIPPED, SETTING),
    )


def _blades(lots: Sequence[Lot]) -> Iterator[Quantity]:
    """A little over the wood of each thickness."""
    alike = list(grouped(lots, lambda lot: round(lot.thickness, 2)).values())
    for same in alike:
        rings = sorted({ring for lot in same for ring in lot.rings})
        id, which = (f".{rings[0]}", f", {ring_list(rings)}") if len(alike) > 1 else ("", "")
        yield ruled(f"blade-height{id}", f"Blade above the table{which}", through(same[0]))


TALLER = (
    "Plane an edge of those that are listed, several side by side on a shooting board: taller than the segments, they "
    "would keep the block that presses the ring flat off the segments.",
)


def _lower(plan: Plan) -> tuple[Quantity, ...]:
    """As tall as the segments beside them, of rings thinner than what is slit; none in a torus."""
    return by_form(plan, torus=lambda _: (), vessel=_as_segments)


def _as_segments(plan: VesselPlan) -> tuple[Quantity, ...]:
    tall = [
        (layer.number, layer.ring.height + plan.job.rings.flattening)
        for layer in plan.stack.to_make
        if layer.ring.spacer
    ]
    alike = grouped((one for one in tall if one[1] < LEAST), lambda one: round(one[1], 2)).values()
    return tuple(
        calliper(
            f"tall.{same[0][0]}",
            f"Plane those of {ring_list([ring for ring, _ in same])} to height",
            same[0][1],
        )
        for same in alike
    )


def _leaves(plan: Plan) -> Iterator[Operation]:
    lots = [lot for lot in plan.wood.lots if lot.piece == "ring strip"]
    if not lots:
        return
    run = run_of("bench", lots, (ruled("length", "Length", lots[0].longer),))
    yield at_bench(
        f"{ID}.leaves",
        "Cut the strips between rings to length by hand, square.",
        how=(
            "Clamp a straight edge square across the strip, over the piece that you keep.",
            "Cut with a knife in many light strokes, or with a veneer saw.",
            "Draw an arrow along the grain on each.",
        ),
        makes=(run.pieces, "strip"),
        rings=run.rings,
        settings=run.settings,
        checks=right_if(
            "covers",
            "Lay one on a wedge ring's face, level with its rim and one flat: it covers all of it",
            if_not="cut it longer; what stands out is trimmed after gluing",
        ),
        cautions=("knife", "table-saw.thin"),
        minutes=each(run.pieces, CROSSCUT / 2, SETTING / 2),
    )


def _by_length(plan: Plan) -> list[Run]:
    return [
        run_of("bench", same, (Quantity("block", "Clamped block to the saw line", same[0].longer),))
        for same in by_length(lot for lot in plan.wood.lots if lot.slip)
    ]


def _cut(runs: Sequence[Run], rack: Rack, number: int) -> Operation:
    run = merged(runs, "slip")
    return at_bench(
        f"{ID}.length{nth(number)}",
        "Cut the slips to length by hand in their box, never at a machine.",
        how=(
            "Set the block, lay the slip in, the hold-down over it on both sides of the cut.",
            "Tighten both wing nuts and saw through with a fine saw.",
        ),
        makes=(run.pieces, "slip"),
        rings=run.rings,
        settings=run.settings,
        jigs=uses(rack.named("slip-box"), notes=number == 1),
        checks=right_if(
            "length",
            "Tape measure along one of each length; both ends square by eye",
            if_not="short: it must still reach over the joint; they are trimmed after gluing",
        ),
        cautions=("slip", "hand-saw"),
        minutes=each(run.pieces, CROSSCUT / 2, SETTING / 2 * len(runs)),
    )


STAGE: Stage[Plan] = Stage(ID, "Cut the slips", operations, jigs=(slip_box,))
