"""A stage of gluing as one operation: how many in each, how many at a time, how long in clamps."""

from __future__ import annotations

from collections.abc import Iterable

from jigs.plans.plan import Plan
from jigs.stages.glue_up.plan import Assembly, GlueStage
from jigs.words.quantity import Quantity
from jigs.work.minutes import glued
from jigs.work.model import Check, JigUse, Operation, at_bench

DRY_FIT = Check(
    "dry-fit",
    "Dry-fit each with its clamps before you open the glue: no light at any joint",
    if_not="find the piece whose joint opens and sand or replace it; clamps never close a joint",
)


def stages_of(plan: Plan, *assemblies: Assembly) -> list[GlueStage]:
    """Those that make some kinds of assembly, in the order of the work."""
    return [stage for stage in plan.wood.glue.stages if stage.assembly in assemblies]


def glue_up(
    plan: Plan,
    stage: GlueStage,
    of: str,
    id: str,
    does: str,
    comes: str,
    how: tuple[str, ...] = (),
    settings: Iterable[Quantity] = (),
    jigs: tuple[JigUse, ...] = (),
    checks: tuple[Check, ...] = (DRY_FIT,),
) -> Operation:
    """The operation of one stage. `of` is the id of the stage of the work, `id` the operation's own within it."""
    glue = plan.wood.glue
    return at_bench(
        id=f"{of}.{id}",
        does=does,
        how=how if stage.in_time else (*how, "Use a slower glue: this one closes before you are done."),
        makes=(stage.count, comes),
        rings=stage.rings,
        settings=(*settings, *_clamped(plan, stage)),
        known=_batches(stage),
        jigs=jigs,
        checks=checks,
        cautions=("bench",),
        minutes=glued(stage.batches, plan.job.workshop.glue.open_time),
        hours=stage.batches * glue.clamp_time + (glue.cure if _sawn_next(plan, stage) else 0.0),
    )


def _batches(stage: GlueStage) -> tuple[Quantity, ...]:
    each = Quantity("pieces-each", "Pieces in each", stage.pieces, "count")
    return (*((each,) if stage.pieces > 1 else ()), Quantity("batches", "Batches", stage.batches, "count"))


def _clamped(plan: Plan, stage: GlueStage) -> tuple[Quantity, ...]:
    return (
        Quantity("at-once", "Glue at a time, at most", min(stage.at_once, stage.count), "count"),
        Quantity("open-time", "Clamp within", plan.job.workshop.glue.open_time, "minutes"),
        Quantity("clamp-time", "Leave each batch in clamps", plan.wood.glue.clamp_time, "hours"),
        *(
            (Quantity("dry-time", "Then let it dry before the saw", plan.wood.glue.cure, "hours"),)
            if _sawn_next(plan, stage)
            else ()
        ),
    )


def _sawn_next(plan: Plan, stage: GlueStage) -> bool:
    """Whether a saw comes next, which wet glue grips."""
    if stage.assembly not in plan.wood.glue.dried:
        return False
    own = [o for o in plan.wood.glue.stages if (o.assembly, o.rings) == (stage.assembly, stage.rings)]
    return stage is own[-1]
