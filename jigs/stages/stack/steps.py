"""The stack grown on its waste block, ring on ring or segment by segment, cured and started: the operations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from geometry.records import replace
from jigs.plans.vessel import VesselPlan
from jigs.stages.glue_up.operation import DRY_FIT, glue_up, stages_of
from jigs.stages.glue_up.plan import GlueStage
from jigs.stages.glue_up.tables import tables as glued
from jigs.stages.grain.tables import tables as grain
from jigs.stages.stack.parts import centring_plates
from jigs.stages.stack.plan import Layer
from jigs.stages.stack.turned import turned_on, turned_under
from jigs.stages.waste_block.steps import plates
from jigs.words.quantity import Quantity, calliper, ring_list, ruled
from jigs.work.lathe import by_two, lifted, start
from jigs.work.minutes import FLATTENED, MARKING, each
from jigs.work.model import Check, Once, Operation, Rack, Reading, Stage, at_bench, right_if
from jigs.work.steps import nth

ID = "stack"
PICTURE = "stack.rings"
MOST = 6  # rings in one operation, each with its plate and its box
MOST_OPEN = 4  # courses of open rings in one, each with its height too


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """From the second ring up; then cure and start."""
    once, rings, courses = Once(), 0, 0
    once.uses(plates(plan, rack, {1}))  # told as ring 1 was glued on
    found: list[Operation] = []
    runs = list(_runs(plan))
    for run in runs:
        if run[0].kind == "open":
            courses += 1
            found.append(_courses(plan, rack, run, nth(courses), once))
        else:
            rings += 1
            found.append(_rings(plan, rack, run, nth(rings), once, run is runs[-1]))
    first = start(ID, plan.rim_speed, plan.waste.runout, tailstock=_tailstock(plan), slowed=plan.slowed)
    return [*found, _cure(plan), first]


def _tailstock(plan: VesselPlan) -> str:
    mouth = plan.job.called.mouth
    return f"Bring up the tailstock, its point in a scrap board laid over the rim, or in a block set into the {mouth}."


def _runs(plan: VesselPlan) -> Iterator[list[Layer]]:
    """Rings over the first that are glued alike and follow each other; ring 2 lies on a floating base already."""
    layers = plan.stack.layers[max(2 if plan.stack.floating else 1, plan.stack.stated) :]
    for _, same in groupby(
        layers, lambda layer: (layer.kind == "open", layer.kind == "open" and layer.ring.segments)
    ):
        run = list(same)
        parts = -(-len(run) // (MOST_OPEN if run[0].kind == "open" else MOST))
        each_ = -(-len(run) // parts)
        yield from (run[low : low + each_] for low in range(0, len(run), each_))


def _standing(plan: VesselPlan, run: Sequence[Layer]) -> tuple[str, ...]:
    """What the first of them are glued on, where rings stand already."""
    own, first = plan.stack.layers[: plan.stack.stated], run[0].number == plan.stack.stated + 1
    if not own or not first:
        return ()
    who = ring_list([layer.number for layer in own])
    return (
        f"Put the faceplate with {who} back on the lathe. Light under the next ring: flatten the top, and measure the "
        "stack again.",
    )


def _grown(plan: VesselPlan, run: Sequence[Layer]) -> tuple[Reading, ...]:
    """How high the stack is after each ring."""
    return tuple(
        Reading(
            f"up-to.{layer.number}",
            f"Stack, up to the top of ring {layer.number}",
            ruled(f"up-to.{layer.number}", "planned", layer.ring.top - plan.stack.bottom),
        )
        for layer in run
    )


def _stage(plan: VesselPlan, run: Sequence[Layer]) -> GlueStage:
    """The plan's, of these rings alone."""
    numbers = tuple(layer.number for layer in run)
    own = [stage for stage in stages_of(plan, "stack", "courses") if set(stage.rings) & set(numbers)]
    if run[0].kind != "open":
        return replace(own[0], rings=numbers, count=len(run))
    count, batches = sum(stage.count for stage in own), sum(stage.batches for stage in own)
    return replace(own[0], rings=numbers, count=count, at_once=-(-count // batches))


PLATE_OUT = (
    "Once the glue grabs, draw the tailstock back and take the plate out. Then press the ring with the tailstock, a "
    "flat scrap over it."
)
GROWN = Check(
    "grown",
    "Rule from the waste block to the top of each ring, at four places",
    if_not="higher or lower than planned: make it good in the height of the next ring; leaning: flatten the top level",
)


def _rings(plan: VesselPlan, rack: Rack, run: Sequence[Layer], end: str, once: Once, last: bool) -> Operation:
    own = plates(plan, rack, {layer.number for layer in run})
    told = glue_up(
        plan,
        _stage(plan, run),
        ID,
        f"rings{end}",
        "Glue ring on ring onto the stack, each in the middle.",
        "ring",
        how=(
            *_standing(plan, run),
            f"Lay each ring on dry by its number, arrow {'down' if plan.stack.upside_down else 'up'}; no light shows "
            "between the faces. Then spread glue thinly on both, to the very edges.",
            *_turn(plan, run),
            "Centre it with its plate on the tailstock's point and press it home."
            if own
            else "Press it home with the tailstock, a scrap board between.",
            *_uncentred(plan, run),
            *((PLATE_OUT,) if own else ()),
            "Wipe the inside before the glue sets; you cannot reach it later.",
            *(_narrow(plan) if last else ()),
        ),
        settings=(*_turned(plan, run), *(_mouth(plan) if last else ())),
        jigs=once.uses(own, "centres it on the tailstock's point"),
        checks=(DRY_FIT, *_steps_on(plan, run), GROWN),
    )
    return replace(
        told,
        place="lathe",
        cautions=("lathe.unplugged", *told.cautions),
        readings=_grown(plan, run),
        figure=None if plan.job.halves.ring else PICTURE if pictured(plan) in run else "",
    )


def pictured(plan: VesselPlan) -> Layer | None:
    """The first ring with a plate and others under it, or else the last one; None where all are open."""
    plates = {ring for plate in plan.ring_boards.centring for ring in plate.rings}
    closed = [layer for run in _runs(plan) for layer in run if layer.kind != "open"]
    return next((one for one in closed[1:] if one.number in plates), closed[-1] if closed else None)


TICKED = (
    "The tick on its label is the middle of segment 1. Pencil a mark on the outside of the ring below, right or left "
    "of the middle of the segment as you look at it, and turn the ring until its tick stands over the mark.",
)
STEP_ON = Check(
    "turn",
    "Stand back and look at the joints: they step on from ring to ring as on their ring sheets",
    if_not="turn that ring to its mark before the glue grabs",
)


def _turn(plan: VesselPlan, run: Sequence[Layer]) -> tuple[str, ...]:
    """How rings are turned on one another; nothing for bricks of open rings, whose plates have marks."""
    if plan.job.rings.turn is not None:
        return (*(TICKED if any(_turned(plan, run)) else ()), *_along(plan, run))
    bricks = "Turn it so that its joints lie over the middles of the segments below, or as its label says."
    jointed = any(layer.kind not in ("disc", "open") for layer in run)
    return (*((bricks,) if jointed else ()), *_along(plan, run))


def _along(plan: VesselPlan, run: Sequence[Layer]) -> tuple[str, ...]:
    """Discs on discs: glued across one another's grain, both split as they dry."""
    discs = {layer.number for layer in plan.stack.layers if layer.kind == "disc" and not layer.upright}
    on = [layer.number for layer in run if {layer.number, layer.number - 1} <= discs]
    return (
        (f"Lay the grain of {ring_list(on)} along that of the disc below: across it, they split.",)
        if on
        else ()
    )


def _turned(plan: VesselPlan, run: Sequence[Layer]) -> Iterator[Quantity]:
    """Where the tick of each ring stands over the ring below, and what turn that is; nothing for bricks and discs."""
    if plan.job.rings.turn is None:
        return
    numbers, upside_down = {layer.number for layer in run}, plan.stack.upside_down
    for joint in plan.stack.joints:
        if upside_down and joint.lower in numbers:
            yield from turned_under(joint)
        elif not upside_down and joint.upper in numbers:
            yield from turned_on(joint)


def _steps_on(plan: VesselPlan, run: Sequence[Layer]) -> tuple[Check, ...]:
    return (STEP_ON,) if any(_turned(plan, run)) else ()


def _uncentred(plan: VesselPlan, run: Sequence[Layer]) -> tuple[str, ...]:
    """Rings of a run whose opening is too small for a plate, or that have none."""
    plated = {ring for plate in plan.ring_boards.centring for ring in plate.rings}
    own = [layer.number for layer in run if layer.number not in plated]
    if not own:
        return ()
    who = f"{ring_list(own).capitalize()} {'takes' if len(own) == 1 else 'take'}"
    return (
        f"{who} no plate: on the ring below pencil the outline of each, from the middle, and set it to that.",
    )


def _narrows(plan: VesselPlan) -> bool:
    inner = plan.section.inner
    return inner.radii(inner.bottom, plan.section.height)[1] > plan.section.mouth_radius


def _narrow(plan: VesselPlan) -> tuple[str, ...]:
    if not _narrows(plan) or plan.job.halves.ring:  # a part is hollowed from its joint
        return ()
    return (
        f"Before the topmost rings: if no tool of yours reaches in through this {plan.job.called.mouth}, hollow the "
        "lower part first.",
    )


def _mouth(plan: VesselPlan) -> tuple[Quantity, ...]:
    return (
        (ruled("mouth", f"{plan.job.called.mouth.capitalize()}, across", 2 * plan.section.mouth_radius),)
        if _narrows(plan) and not plan.job.halves.ring
        else ()
    )


def _courses(plan: VesselPlan, rack: Rack, run: Sequence[Layer], end: str, once: Once) -> Operation:
    own = plates(plan, rack, {layer.number for layer in run})
    told = glue_up(
        plan,
        _stage(plan, run),
        ID,
        f"courses{end}",
        "Glue the segments of each open ring one by one onto the stack, then flatten the course.",
        "segment",
        how=(
            "Try all segments of a course dry round its plate.",
            *(() if own else ("Draw the segments' places on the course below: no plate fits in.",)),
            *_turn(plan, run),
            "Spread glue on a segment's lower face only, where it lies on wood.",
            "Wipe glue out of the gaps before it sets.",
            "Once it is dry, flatten the course with abrasive on a flat board, laid across all of it.",
        ),
        settings=(
            *_turned(plan, run),
            *(
                calliper(
                    f"height.{layer.number}", f"Ring {layer.number}: flatten the course to", layer.ring.height
                )
                for layer in run
            ),
        ),
        jigs=once.uses(own, "the segments lie round it, at its marks"),
        checks=(
            Check(
                "flat",
                "Straight edge across the course, three ways: no light",
                if_not="rub on where pencil marks are gone first",
            ),
            *_steps_on(plan, run),
            GROWN,
        ),
    )
    return replace(
        told,
        place="lathe",
        cautions=("lathe.unplugged", *told.cautions),
        readings=_grown(plan, run),
        minutes=told.minutes + each(len(run), FLATTENED),
    )  # fmt: skip


def _cure(plan: VesselPlan) -> Operation:
    rings, weighs = len(plan.stack.layers), plan.stack.weighs + plan.waste.weighs
    height = ruled("height", "Height of the stack", plan.stack.top - plan.stack.bottom)
    whole = f"up-to.{plan.stack.layers[-1].number}"  # judged as the height up to the last ring is
    return at_bench(
        f"{ID}.cure",
        "Let the stack cure, then tap every joint and look at it.",
        how=(
            *by_two(weighs, "Two lift it off the lathe and, once it is cured, on again."),
            "Stand it up, air all round it.",
            "Tap beside each joint with a stick and listen: a dull joint is open inside.",
        ),
        rings=tuple(layer.number for layer in plan.stack.layers),
        known=lifted(weighs, "waste block"),
        settings=(Quantity("cure", "Cure, before it turns", plan.wood.glue.cure, "hours"), height),
        checks=right_if(
            "joints",
            "Every joint rings, none shows a line of light or a gap",
            if_not="saw the stack apart there, flatten both faces and glue it again; never turn it",
        ),
        readings=(Reading(whole, "Height of the stack", height),),
        minutes=each(rings, MARKING),
        hours=plan.wood.glue.cure,
    )


STAGE: Stage[VesselPlan] = Stage(
    ID, "Glue up the stack", operations, jigs=(centring_plates,), tables=(grain, glued)
)
