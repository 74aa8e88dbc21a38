"""The inside of a vessel hollowed by stages, then everything that can be reached sanded: the operations."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from geometry.lathe.inside_reach import neck
from geometry.plane.profile import Profile
from geometry.records import replace
from jigs.asked.defaults import LEAST_NECK
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.parts.inside import inside_gauges
from jigs.stages.gauging.parts.wall import wall_gauge
from jigs.stages.gauging.plan.vessel import VesselStage
from jigs.stages.sizes.parts.sticks import stepped_sticks
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.lathe import SHAPE
from jigs.work.minutes import GAUGED, TURNED, over
from jigs.work.model import Check, Once, Operation, Rack, Reading, Stage, at_lathe, right_if
from jigs.work.steps import BASE, INSIDE, sanded

ID = "inside"
UNDER = "stop, the faceplate's screws lie next; there is no floor in this part"
LIP = " to the lip, beside the base"
TURNED_OUTSIDE = "Where no gauge reaches, go by a wall calliper from the finished outside."
UNTURNED = (
    "Where no gauge reaches, go by inside callipers, each width at its depth: the outside is not turned yet, so a "
    "wall calliper tells nothing."
)
LEDGE = "That is the rebate's width: stop at the rebate's depth, and open what lies under it no wider than listed."
NECK = "But open the neck at once as wide as listed: a tool passes it to hollow what lies below."
WIDTHS = 5  # that are listed where no gauge reaches
RULED: dict[Unit, float] = {"mm": 1.0, "in": MM_PER_INCH / 16}  # to which their depths are rounded
# The rest stands off the rim by so much: common practice, no source.
REST_OFF: dict[Unit, float] = {"mm": 10.0, "in": 3 * MM_PER_INCH / 8}
BESIDE = "Where a gap lies at one of the equal angles, measure the wall on the wood beside it."
FLANGE = "Keep the paper off the flange: it is fitted with a tool afterwards."
THROUGH = (
    "There is no floor: hollow right through to the waste block's face, no deeper, for the faceplate's screws are in "
    "it. Only the ring's joint holds the work from then on: light cuts, sharp tools."
)


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """Every stage at which there is a hollow."""
    once = Once()
    hollow = [
        (number, stage) for number, stage in enumerate(plan.gauges.stages, 1) if stage.work_inside is not None
    ]
    return [
        *(_stage(plan, rack, stage, number, once, first=k == 0) for k, (number, stage) in enumerate(hollow)),
        *_sanded(plan),
    ]


def _area(plan: VesselPlan, *names: str) -> float:
    return sum(surface.area for surface in plan.wood.finish.surfaces if surface.name in names)


def _stage(
    plan: VesselPlan, rack: Rack, stage: VesselStage, number: int, once: Once, first: bool
) -> Operation:
    last, word = number == len(plan.gauges.stages), plan.job.called
    return at_lathe(
        f"{ID}.{stage.name}",
        "Hollow the inside to the finished gauge." if last
        else f"Hollow the inside to the gauge of stage {number}.",
        how=(
            *_begin(plan, first),
            f"Open the {word.mouth} to this stage first, then go down a little at a time.",
            *((NECK,) if any(_neck(plan, stage)) else ()),
            *((LEDGE,) if any(_rebated(plan, stage)) else ()),
            "Bring each depth to its wall before you go deeper: above thin wood nothing holds still.",
            *(("Put a steady rest against the cup's outside; never press on the rim.",) if plan.stack.stemmed else ()),
            *((UNTURNED if _in_part(plan) else TURNED_OUTSIDE,) if plan.gauges.unguided else ()),
            *((THROUGH,) if plan.section.through else ()),
            "Stop the lathe to take shavings out, and never reach in while it turns.",
        ),
        settings=(*_sizes(plan, stage, number), *_neck(plan, stage), *_rebated(plan, stage), *_blind(plan, stage)),
        jigs=once.uses(_gauges(plan, rack, stage, number)),
        checks=(
            SHAPE,
            Check(
                "depth",
                f"Lathe stopped: rule down from a straight edge over the rim{LIP if plan.stack.floating else ''}",
                if_not=_if_not_deep(plan),
            ),
        ),
        cautions=("lathe.hollow", "lathe.open" if plan.stack.open_from is not None else "lathe.gauge", "lathe.stand"),
        readings=(Reading("depth", f"Depth {_where(plan)}", _depth(plan, stage)),) if last else (),
        minutes=over(_area(plan, "inside"), 2 * TURNED, 2 * GAUGED),
    )  # fmt: skip


def _if_not_deep(plan: VesselPlan) -> str:
    """A floating base is finished before it is laid in: its lip alone is turned."""
    word = plan.job.called
    if plan.section.through:
        return "shallow: go on down, to the waste block's face"
    if plan.stack.floating:
        return "shallow: the lip first, never the base; too deep: stop, the lip is thinner by as much"
    if plan.stack.upside_down:
        return f"shallow: the middle first; too deep: {UNDER}"
    return (
        f"shallow: the middle first; too deep: take as much less off the {word.foot} later, so that the {word.floor} "
        "keeps its thickness"
    )


def _where(plan: VesselPlan) -> str:
    return "to the lip" if plan.stack.floating else "in the middle"


def _begin(plan: VesselPlan, first: bool) -> tuple[str, ...]:
    if not first:
        return ()
    return (
        "Only now take the tailstock away, and set the rest close to the rim.",
        *(
            ("Cover the floating base with card, lift it out for every gauge, and stop at the lip's edge.",)
            if plan.stack.floating
            else ()
        ),
    )


def _depth(plan: VesselPlan, stage: VesselStage) -> Quantity:
    if stage.work_inside is None:
        raise ValueError("this stage has no hollow")
    what = "Waste block's face" if plan.section.through else f"Depth {_where(plan)}"
    return ruled("depth", f"{what}, under the rim", _down(plan, stage.work_inside))


def _down(plan: VesselPlan, work: Profile) -> float:
    """From the rim to where the tool goes deepest."""
    return plan.section.height - (plan.stack.bottom if plan.section.through else work.start[1])


def _reach(plan: VesselPlan, stage: VesselStage) -> Iterator[Quantity]:
    """For the turner to hold against what the tool's maker allows."""
    if stage.work_inside:
        reach = _down(plan, stage.work_inside) + REST_OFF[plan.job.unit]
        yield ruled("reach", "Tool past a rest that stays outside, up to", reach)


def _sizes(plan: VesselPlan, stage: VesselStage, number: int) -> tuple[Quantity, ...]:
    mouths = {
        size.number: size.diameter
        for stick in plan.sizes.mouth
        for size in (stick.go, stick.before)
        if size is not None
    }
    return (
        *(
            (calliper("mouth", f"{plan.job.called.mouth.capitalize()}, across", mouths[number]),)
            if number in mouths
            else ()
        ),
        _depth(plan, stage),
        *_reach(plan, stage),
        calliper("left", "Left over the finished size by this gauge", stage.offset),
    )


def _rebated(plan: VesselPlan, stage: VesselStage) -> Iterator[Quantity]:
    """How deep the rebate in the rim is at a stage, and how wide the hollow under it, where a stage has both."""
    deep, work = plan.job.rebate.depth - stage.offset, stage.work_inside
    if work is None or deep <= 0.0 or _in_part(plan):  # whose gauge alone goes by it
        return
    ledge = plan.section.height - deep
    under = work.radii(ledge - stage.offset - 1.0, ledge - 1e-3)[0]
    yield calliper("rebate.deep", "Rebate, deep", deep)
    yield calliper("rebate.under", "Just under it, across, at most", 2 * under, bound="most")


def _neck(plan: VesselPlan, stage: VesselStage) -> Iterator[Quantity]:
    """How wide the neck is opened at once, where this stage would leave it too narrow for a tool to pass."""
    now, last = (one.work_inside and neck(one.work_inside) for one in (stage, plan.gauges.stages[-1]))
    if now and last:
        wide = min(LEAST_NECK[plan.job.unit], 2 * last[0])
        if 2 * now[0] < wide - 1e-6:
            yield calliper("neck", "Neck, across", wide)


def _in_part(plan: VesselPlan) -> bool:
    """Whether it is hollowed before its outside is turned."""
    return plan.job.halves.ring is not None


def _blind(plan: VesselPlan, stage: VesselStage) -> Iterator[Quantity]:
    """Heights that no gauge reaches; of a part, how far under its joint, and how wide it is there."""
    if plan.gauges.unguided is None:
        return
    low, high = plan.gauges.unguided
    if not _in_part(plan):
        label = f"No gauge reaches the inside from the height over the {plan.job.called.foot}"
        yield from (ruled("blind.from", label, low), ruled("blind.to", "to", high))
        return
    top, work = plan.section.height, stage.work_inside
    yield ruled("blind.from", "No gauge reaches the inside, under the joint, from", top - high)
    yield ruled("blind.to", "to", top - low)
    if work is not None:
        for k, z in enumerate(np.linspace(high, low, WIDTHS + 1)[:-1].tolist(), 1):
            deep = min(round((top - z) / RULED[plan.job.unit]) * RULED[plan.job.unit], top - work.bottom)
            label = f"Inside, across, {plan.job.show(deep)} under the joint"
            yield calliper(f"blind.across-{k}", label, 2 * work.radius_at(top - deep))


def _gauges(plan: VesselPlan, rack: Rack, stage: VesselStage, number: int) -> list[Part]:
    several = len(plan.sizes.mouth) > 1
    sticks = [
        f"mouth-stick-{stick.number}" if several else "mouth-stick"
        for stick in plan.sizes.mouth
        if number in (stick.go.number, stick.before.number if stick.before else 0)
    ]
    return rack.named(*sticks, f"inside-gauge-{stage.name}", "wall-gauge")


def _sanded(plan: VesselPlan) -> Iterator[Operation]:
    """All but the foot; of a goblet the cup, its stem still thick."""
    stemmed = plan.stack.stemmed
    area = _area(plan, "outside", "inside", "rim")
    whole = sanded(
        plan,
        ID,
        "sand",
        "Sand the cup, outside and inside, grit by grit; the stem comes later."
        if stemmed
        else f"Sand outside, rim and inside, grit by grit; the {plan.job.called.foot} comes later.",
        area / 2 if stemmed else area,
        checks=right_if(
            "wall",
            "Wall calliper round the rim and as far down as it reaches: even all round",
            (calliper("wall", "Thinnest finished wall", plan.wall[0]),),
            "thin on one side: stop sanding there; sand the thick side outside",
        ),
        stopped=plan.stack.open_from is not None,
        also=(
            INSIDE,
            *((BESIDE,) if plan.stack.open_from is not None else ()),
            *((BASE,) if plan.stack.floating else ()),
            *((FLANGE,) if plan.lid else ()),
        ),
    )
    thin = calliper("planned", "", plan.wall[0])
    yield replace(
        whole, readings=(Reading("wall", "Wall near the rim, at 8 equal angles, at least", thin, 8),)
    )


STAGE: Stage[VesselPlan] = Stage(
    ID, "Hollow the inside to its gauges", operations, jigs=(inside_gauges, wall_gauge, stepped_sticks)
)
