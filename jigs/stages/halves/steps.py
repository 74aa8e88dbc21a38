"""What parts need beside the steps of a vessel: the joint faced and rebated, the parts finished and joined."""

from __future__ import annotations

from math import pi, sqrt

from jigs.plans.vessel import VesselPlan
from jigs.stages.halves.plan import LOWER, UPPER, HalvesPlan, Tier, TierJoint
from jigs.stages.solids.slim import AROUND
from jigs.stages.stack.turned import turned_on
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.lathe import UNTIL, by_two, lifted, start
from jigs.work.minutes import CHECKED, COATED, CROSSCUT, DRY_RUN, GAUGED, MOUNTED, over
from jigs.work.model import Check, Goods, Operation, Rack, at_bench, at_lathe, right_if, uses
from jigs.work.paper_block import SAW, block_goods, on_block
from jigs.work.steps import BASE, COAT, INSIDE, sanded
from jigs.work.supplies import sizes

SCREWS = ("Then go no deeper than listed: the faceplate's screws end in the waste block.",)
SQUARE, FACED = 10.0, 3.0  # mm, of the scrap over its ring: across, and thick. Common practice, no source


def faced(tier: Tier, of: str) -> Operation:
    """The joint of a part, before it is hollowed."""
    how = (
        "Take no more than makes it flat: what comes off here makes the vessel lower.",
        "Turn the outside round for a finger's breadth below the joint, leaving wood for the first stage.",
        "The steps that follow call the joint mouth and rim.",
        *(SCREWS if tier.stack.upside_down else ()),
    )
    return _faced(of, tier.name, how, tier.section.height - tier.gauges.faceplate)


def _faced(of: str, name: str, how: tuple[str, ...], over: float) -> Operation:
    return at_lathe(
        f"{of}.face",
        f"Face the joint of the {name} part flat, and turn its edge round.",
        how=how,
        settings=(ruled("over", "Joint, over the faceplate", over),),
        checks=right_if(
            "flat",
            "Lathe stopped: no light shows under a straight edge across the joint, three ways",
            if_not="face it again; the joint shows in the finished work",
        ),
        cautions=("lathe", "lathe.gauge", "lathe.stand"),
        minutes=GAUGED,
    )


def opened(plan: VesselPlan, rack: Rack, tier: Tier, of: str) -> list[Operation]:
    """The other joint of a part between others, glued on: its waste block off, faced and rebated for the next part."""
    joint = _parts(plan).over(tier)
    if joint is None:
        return []
    over, across = joint.height - plan.gauges.faceplate, 2 * joint.below.mouth_radius
    how = (
        "The tailstock is away and the work stands far out: light cuts, the rest close to the joint.",
        f"Turn off what is left of the waste block, then no more of ring {joint.ring} than makes it flat.",
        "Turn the outside round for a finger's breadth below the joint, leaving wood for the first stage.",
    )
    return [
        _parted(of, tier.name, "joint", over, across),
        _faced(of, tier.name, how, over),
        _rebate(rack, joint, tier.name, of),
    ]


def closed_in(plan: VesselPlan, rack: Rack, tier: Tier, of: str) -> list[Operation]:
    """The rebate of a part, its inside sanded and finished; its area taken as an equal share of the whole inside."""
    area = sum(s.area for s in plan.wood.finish.surfaces if s.name == "inside") / len(_parts(plan).tiers)
    does = f"Sand the inside of the {tier.name} part, grit by grit; nothing reaches it later."
    return [
        _rebate(rack, tier.joint, tier.name, of),
        sanded(plan, of, "sand", does, area, also=(INSIDE, *((BASE,) if tier.stack.floating else ()))),
        at_bench(
            f"{of}.finish",
            f"Finish the inside of the {tier.name} part.",
            how=("Keep finish off the joint's face and its rebate: glue does not hold on it.", *COAT),
            settings=(Quantity("coats", "Coats", plan.wood.finish.coats, "count"),),
            checks=(Check("dry", "Nothing comes off on a cloth", if_not="give it longer"),),
            cautions=("finish.rags", "finish.fumes"),
            minutes=over(area, COATED * plan.wood.finish.coats, CHECKED),
            hours=plan.wood.finish.coats * plan.wood.finish.coat_hours,
        ),
    ]  # fmt: skip


def _rebate(rack: Rack, joint: TierJoint, name: str, of: str) -> Operation:
    ring = joint.centring
    return at_lathe(
        f"{of}.rebate",
        "Turn the rebate for the centring ring into the inner edge of the joint.",
        how=("Cut its wall upright and its floor level, in light cuts, from the inside outwards.",),
        settings=(
            calliper("across", "Rebate, across", 2 * ring.rebate),
            calliper("deep", "Rebate, deep", ring.depth),
        ),
        jigs=uses(rack.named(joint.gauge), "the rebate's size and depth", notes=name == LOWER),
        trial="a ring of scrap",
        checks=right_if(
            "rebate",
            "Lathe stopped: joint gauge in at GO, its arms on the face, two ways",
            if_not="TOO WIDE enters: turn the centring ring larger by as much",
        ),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=GAUGED,
        figure=f"{joint.of}.glue",
    )


def joined(plan: VesselPlan, rack: Rack, tier: Tier) -> list[Operation]:
    """The ring, the joint of a part with what stands under it, its cure; then its other joint, where it has one."""
    of, speed = tier.joint.of, tier.joint.speed
    return [
        _ring(plan, tier),
        _glue(plan, tier),
        _cure(plan, tier),
        start(of, speed, plan.waste.runout, slowed=plan.slowed or speed != plan.rim_speed),
        *opened(plan, rack, tier, of),
    ]


def _parts(plan: VesselPlan) -> HalvesPlan:
    if plan.halves is None:
        raise ValueError("the vessel is built in one")
    return plan.halves


def _ring(plan: VesselPlan, tier: Tier) -> Operation:
    of, ring = tier.joint.of, tier.joint.centring
    square = 2 * ring.outer + SQUARE
    return at_lathe(
        f"{of}.ring",
        "Turn the centring ring from fine plywood, glued with paper to a waste block.",
        how=(
            SAW,
            f"Your two faceplates are under the parts: take a third, or that of the {tier.name} part, which is done.",
            "Take birch plywood of thin plies: so slim a ring of solid wood splits, and turns oval in other air.",
            "Glue it to the block, brown paper between; leave it in clamps. Bring up the tailstock.",
            "Turn its outside to drop into both rebates, and face it to the ring's thickness.",
            "Cut its inside down to the paper with a narrow tool, the tailstock still up.",
            "Clamp the block and split the ring off along the paper with a wide chisel, a little at a time.",
        ),
        makes=(1, "ring"),
        settings=(
            calliper("outer", "Ring, across", 2 * ring.outer),
            calliper("inner", "Ring, bored", 2 * ring.inner),
            calliper("thick", "Ring, thick", ring.thickness),
            *on_block(plan, 2 * ring.outer, sqrt(2) * square),
        ),
        checks=(
            Check(
                "drops",
                "Lathe stopped: it drops into either rebate and turns, with no play that you can see",
                if_not="loose: turn another; tight: one light cut off its outside, since a forced ring opens the joint",
            ),
            Check(
                "closes",
                "Dry, with the ring in, the joint closes; no light shows round the joint",
                if_not="the ring is too thick, or a rebate too shallow: deepen the rebate",
            ),
        ),
        cautions=("lathe.paper", "lathe", "chisel"),
        minutes=MOUNTED + 2 * GAUGED,
        hours=plan.wood.glue.clamp_time,
        figure=f"{of}.glue",
        uses_up=(
            _plywood(ring.thickness + FACED, square),
            *block_goods(plan, "the centring ring", 2 * ring.outer),
        ),
    )


def _plywood(thickness: float, across: float) -> Goods:
    size = (Quantity("area", "In all", across**2, "spread"), *sizes(thickness, across, across))
    return Goods("sheet.centring-ring", "sheets", "birch plywood for the centring ring", size)


def _glue(plan: VesselPlan, tier: Tier) -> Operation:
    of, k = tier.joint.of, tier.joint.ring
    weighs = tier.stack.weighs + tier.waste.weighs
    turn = (
        f"Turn the {tier.name} part so that the joints of ring {k + 1} lie over the middles of ring {k}'s segments."
        if plan.job.rings.turn is None
        else f"Turn the {tier.name} part until the tick of ring {k + 1} stands over its mark on ring {k}."
    )
    between = next(joint for joint in plan.stack.joints if joint.lower == k)
    return at_lathe(
        f"{of}.glue",
        f"Glue the {tier.name} part onto what stands on the lathe, the centring ring between.",
        how=(
            f"Leave both on their waste blocks, the {tier.name} part's without its faceplate.",
            "Lay the ring dry into the lower rebate; no glue in the rebates.",
            "Spread glue thinly on both faces outside the rebates, least near the ring: inside you cannot wipe it off.",
            turn,
            *by_two(weighs, UNTIL.format("the tailstock presses it")),
            f"Set the {tier.name} part on and press it with the tailstock, a flat pad in the middle of its waste "
            "block.",
            "Turn it by hand and look along the bed at the joint: both edges run alike.",
        ),
        rings=(k, k + 1),
        settings=(
            ruled("height", "Joint, over the foot", tier.joint.height),
            *(() if plan.job.rings.turn is None else turned_on(between)),
        ),
        known=(Quantity("batches", "Batches", 1, "count"), *lifted(weighs, "waste block")),
        checks=right_if(
                "closed",
                "Glue beads all round; a straight edge along the outside shows no step, at four places",
                if_not="take it apart while the glue is wet",
            ),
        cautions=("lathe.unplugged", "bench"),
        minutes=DRY_RUN + plan.job.workshop.glue.open_time,
        hours=plan.wood.glue.clamp_time,
        figure=f"{of}.glue",
    )  # fmt: skip


def _cure(plan: VesselPlan, tier: Tier) -> Operation:
    of, over = tier.joint.of, _parts(plan).over(tier)
    top = over.height if over else plan.stack.top
    height = ruled("height", "Height of the stack, without a block on it", top - plan.stack.bottom)
    return at_bench(
        f"{of}.cure",
        "Let the joint cure, then tap all round it.",
        how=("Leave it between the centres, the tailstock up.",),
        settings=(Quantity("cure", "Cure, before it turns", plan.wood.glue.cure, "hours"), height),
        checks=(Check("sound", "It rings alike all round", if_not="part it at the joint and glue it again"),),
        minutes=CHECKED,
        hours=plan.wood.glue.cure,
    )


def parted(plan: VesselPlan) -> Operation:
    """The upper waste block off, before the rim is faced."""
    section = plan.section
    over, across = section.height - plan.gauges.faceplate, 2 * section.mouth_radius
    return _parted("outside", UPPER, "rim", over, across)


def _parted(of: str, name: str, what: str, over: float, across: float) -> Operation:
    """A waste block off over a rim, or a joint, so far over the faceplate and so far across inside."""
    return at_lathe(
        f"{of}.part",
        f"Take the {name} part's waste block off over the {what}.",
        how=(
            f"Part in over the {what}, the tailstock up, down to the size listed; a neck of wood still holds it.",
            "Unplug the lathe and draw the tailstock back.",
            "Saw that neck through by hand, round and round, the other hand under the block.",
        ),
        settings=(
            ruled("over", f"{what.capitalize()}, over the faceplate", over),
            ruled("leave", "Neck left for the saw, across", across + 2 * AROUND, bound="least"),
        ),
        checks=right_if(
            "clear",
            f"Wood is left over the {what} all round, for facing",
            if_not=f"face the {what} as it is: the vessel gets lower by what is missing",
        ),
        cautions=("lathe.saw-off", "lathe", "lathe.stand"),
        minutes=MOUNTED + CROSSCUT,
    )


def mouth(plan: VesselPlan, rack: Rack) -> Operation:
    """The mouth turned to meet the inside."""
    finished = 2 * plan.section.mouth_radius
    deep = plan.job.rebate.depth - plan.gauges.stages[-1].offset if plan.job.rebate.depth else 0.0
    return at_lathe(
        "inside.mouth",
        "Turn the mouth to its size, until it meets the inside.",
        how=(
            "Take only what stands in from the rim down; all below is done.",
            *(("That is the rebate's width: stop at the rebate's depth.",) if deep else ()),
            *(("Gauges that pass the mouth show where it meets the inside.",) if plan.gauges.reach else ()),
        ),
        settings=(
            calliper("mouth", "Mouth, across", _before_sanding(plan)),
            *((calliper("rebate.deep", "Rebate, deep", deep),) if deep else ()),
        ),
        jigs=uses(rack.named("mouth-stick", "inside-gauge", "wall-gauge"), notes=True),
        checks=right_if(
            "meets",
            "Lathe stopped: a finger from the rim down feels no step",
            if_not="blend it with a scraper on a long handle",
        ),
        cautions=("lathe.hollow", "lathe.gauge", "lathe.stand"),
        minutes=over(pi * finished * 30.0, 1.0, 2 * GAUGED),
    )


def _before_sanding(plan: VesselPlan) -> float:
    """The mouth's diameter by its last gauge."""
    inside = plan.gauges.stages[-1].work_inside
    return 2 * (inside.end[0] if inside else plan.section.mouth_radius)
