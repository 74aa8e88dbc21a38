"""The finish, and where the work goes then: the operations, for either form."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from jigs.plans.plan import Plan, by_form
from jigs.stages.finish.tables import tables
from jigs.words.quantity import Quantity, ruled
from jigs.work.minutes import COATED, over
from jigs.work.model import Operation, Rack, Stage, at_bench, right_if
from jigs.work.steps import COAT
from jigs.work.supplies import finish as bottle
from jigs.work.woods import weighs

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.vessel import VesselPlan

ID = "finish"
LID = "Wipe the flange thin, and keep the lid off its pot until both are dry: a thick coat tightens the fit."
PLACED = 20.0  # minutes, a peg and its plug among them


def operations(plan: Plan, rack: Rack) -> list[Operation]:
    """Coats, then the wall or the shelf; a lid goes on its pot."""
    lid = by_form(plan, torus=lambda _: False, vessel=lambda own: own.job.lid is not None)
    return [_coats(plan)] if lid else [_coats(plan), _place(plan)]


KEPT = "Keep it from sun, radiators and damp: rings of wood swell and shrink, and their joints with them."
HUNG = (
    "Hang it over one thick peg or two, padded, in a wall plug that carries three times its weight.",
    "Standing, give it a foot with a hollow of its own tube, so that it cannot roll.",
    KEPT,
)


def _coats(plan: Plan) -> Operation:
    finish = plan.wood.finish
    return at_bench(
        f"{ID}.coats",
        "Put on the finish, coat by coat.",
        how=(
            "Try it on a sanded offcut of every wood first, all coats.",
            *COAT,
            *by_form(
                plan, torus=lambda _: (), vessel=lambda own: (*((LID,) if own.lid else ()), *_inside(own))
            ),
        ),
        settings=(Quantity("coats", "Coats", finish.coats, "count"),),
        known=tuple(
            Quantity(f"surface-{number}", f"Surface: {_named(plan, surface.name)}", surface.area, "area")
            for number, surface in enumerate(finish.surfaces, 1)
        ),
        checks=right_if(
            "dry", "No smell, nothing comes off on a cloth", if_not="give it longer; warmth helps"
        ),
        cautions=("finish.rags", "finish.fumes"),
        minutes=over(finish.area, COATED * finish.coats, 10 * finish.coats),
        hours=finish.coats * finish.coat_hours,
        uses_up=bottle(finish.area, finish.coats),
    )


def _inside(plan: VesselPlan) -> tuple[str, ...]:
    return ("The inside has its coats: only the mouth still needs them.",) if plan.halves else ()


def _named(plan: Plan, surface: str) -> str:
    foot = by_form(plan, torus=lambda _: surface, vessel=lambda own: own.job.called.foot)
    return foot if surface == "foot" else surface


def _place(plan: Plan) -> Operation:
    does, how, stands = by_form(
        plan,
        torus=lambda _: ("Hang it on the wall, or stand it up.", HUNG, ()),
        vessel=lambda own: ("Stand it in its place.", (KEPT,), _stands(own)),
    )
    return Operation(f"{ID}.place", does, "shop", how=how, known=(*weighs(plan), *stands), minutes=PLACED)


def _stands(plan: VesselPlan) -> Iterator[Quantity]:
    """What a vessel holds, and how far it may be tilted."""
    stack = plan.stack
    if stack.open_from is not None:
        yield ruled("open-from", "Open between the segments from the height", stack.open_from)
    if stack.capacity:
        dry = "dry things, " if stack.floating or stack.open_from is not None else ""
        yield Quantity("holds", f"Holds {dry}up to {'there' if stack.open_from is not None else 'the brim'}",
                       stack.capacity, "volume")  # fmt: skip
    yield Quantity("tips", "Falls over when tilted by", stack.tips_at, "angle")


STAGE: Stage[Plan] = Stage(ID, "Finish", operations, in_a_run=True, tables=(tables,))
