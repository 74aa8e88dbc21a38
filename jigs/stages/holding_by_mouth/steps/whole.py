"""A vessel taken off its waste block and held by its mouth, or by nothing, while its foot is made: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plans.vessel import VesselPlan
from jigs.stages.holding_by_mouth.parts import reversing
from jigs.stages.holding_by_mouth.plan import MouthPlug
from jigs.stages.holding_by_mouth.steps.onto_plug import held, side
from jigs.stages.holding_by_mouth.steps.plug import plug_made
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work import lathe
from jigs.work.minutes import CROSSCUT, GAUGED, SANDED, each
from jigs.work.model import Check, Operation, Rack, Reading, Stage, at_bench, at_lathe, right_if
from jigs.work.steps import sanded

ID = "reversing"


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """The vessel off its waste block, the plug turned, the vessel onto it; by hand where nothing holds it."""
    plug, word = plan.reversing.plug, plan.job.called
    if plug is None:
        return [_off(plan), _by_hand(plan)]
    return [
        *_bored(plan, plug),
        _off(plan),
        *plug_made(ID, plan, plug, rack),
        held(ID, plan, plug),
        lathe.start(
            ID,
            plan.reversed_speed,
            plan.waste.runout,
            side(plan),
            f"loosen it, turn the {word.whole} on the plug, press it home, measure again",
            "" if plug.bolt else f"Leave the tailstock up, on the {word.foot}.",
        ),
        _foot(plan, plug),
        sanded(plan, ID, "sand", f"Sand the {word.foot}, grit by grit.", plan.wood.finish.area_of("foot")),
        _done(plan, plug),
    ]


def _even(plan: VesselPlan) -> str:
    """How a straight edge shows that it stands, or that it lies flat under a knob or the eye."""
    if plan.job.lid:
        return "Straight edge over the top: flat, or light in the middle only"
    return "Straight edge over the foot: light in the middle only, so that it stands on its rim"


def _bored(plan: VesselPlan, plug: MouthPlug) -> Iterator[Operation]:
    word, deep = plan.job.called, plan.section.height - plan.stack.bottom
    if plug.bolt:
        yield at_lathe(
            f"{ID}.bore",
            f"Bore the rod's hole through the {word.floor}, while the {word.whole} still runs on its waste block.",
            how=(
                f"Put a drill in the tailstock's chuck and bore from the {word.mouth}, lowest speed. Take a long one "
                f"where the chuck does not pass the {word.mouth}.",
                "Draw it back often to clear it; stop in the waste block.",
            ),
            settings=(
                *_hole(plan),
                ruled("reach", "Drill reaches under the rim, at least", deep, bound="least"),
            ),
            checks=right_if(
                "through", "The rod passes by hand", if_not="bore deeper; it must reach the waste block"
            ),
            cautions=("lathe.stand", "lathe"),
            minutes=GAUGED,
        )


def _off(plan: VesselPlan) -> Operation:
    word, (hollow, neck) = plan.job.called, plan.parting_neck
    deep, plug = plan.section.foot_radius - neck > DEEP, plan.reversing.plug
    point = plug is not None and plug.centre_recess > 0
    clear = ruled(
        "clear", "Cut no nearer to the faceplate than", plan.waste.screws.depth + CLEAR, bound="least"
    )
    return at_lathe(
        f"{ID}.off",
        f"Part in below the {word.foot}, and saw the {word.whole} off its waste block by hand.",
        how=(
            "Bring the tailstock up to a padded board across the rim."
            if hollow
            else "Bring the tailstock up to a padded block inside, in the middle, that stands out of the "
            f"{word.mouth}.",
            f"Mark the {word.foot}'s plane, measured from the faceplate; part in beside it, in the waste, not in the "
            f"{word.foot}.",
            *((WIDER,) if deep else (WIDENED,) if point else ()),
            *lathe.by_two(
                plan.stack.weighs_left,
                "It is too heavy for one hand: have a second pair under it at the saw.",
            ),
            f"Stop at the neck listed{': it is hollow, a ring of wood alone' if hollow else ''}.",
            f"Unplug the lathe, and saw the neck through with a fine saw, a hand under the {word.whole}.",
            *((STUB.format(word.foot),) if point else ()),
        ),
        settings=(
            ruled("foot", f"{word.foot.capitalize()}, over the faceplate", -plan.gauges.faceplate),
            ruled("foot.across", f"{word.foot.capitalize()}, across", 2 * plan.section.foot_radius),
            ruled("neck", "Neck left for the saw, across", 2 * neck, bound="least"),
            *((clear,) if deep or point else ()),
        ),
        checks=right_if(
            "wood",
            f"Wood is left below the {word.foot} all round",
            if_not=f"a {word.foot} cut short makes it lower: face it flat all over"
            + ("" if plan.section.through else f" and keep the thickness of the {_kept(plan)}"),
        ),
        cautions=("lathe.saw-off", "hand-saw", "lathe.stand"),
        minutes=each(1, CROSSCUT, GAUGED),
    )


DEEP, CLEAR = 25.0, 2.0  # mm, of a cut with a parting tool, and off the screws. Common practice, no source
WIDER = (
    "Widen the cut towards the block as it gets deeper, for a narrow one grips the tool. Keep as far off the faceplate "
    "as listed: the block's screws come up there."
)
WIDENED = (
    "Widen the cut towards the block, as near to the faceplate as listed: the block's screws come up there."
)
STUB = "Saw on the block's side of the cut: the wood that stays under the {} takes the tailstock's point."
LEDGE = "ledge under the base"
PADDED = "what the padded block covers"


def _kept(plan: VesselPlan) -> str:
    """What facing the foot makes thinner."""
    return LEDGE if plan.stack.floating else plan.job.called.floor


def _sizes(plan: VesselPlan) -> tuple[Quantity, ...]:
    section, word = plan.section, plan.job.called
    hollow = section.recess_radius > 0 and not plan.stack.floating  # which is bored already
    floor = calliper("floor", f"{word.floor.capitalize()}, thick in the middle", section.floor_thickness)
    ledge = calliper("ledge", f"{LEDGE.capitalize()}, thick", section.recess_depth)
    return (
        ruled("height", f"Height of the {word.whole}", section.height),
        ruled("foot.across", f"{word.foot.capitalize()}, across", 2 * section.foot_radius),
        *(() if section.through else (ledge if plan.stack.floating else floor,)),
        *(
            (
                ruled("recess.across", f"Hollow in the {word.foot}, across", 2 * section.recess_radius),
                calliper("recess.depth", "and deep", section.recess_depth),
            )
            if hollow
            else ()
        ),
    )


def _foot(plan: VesselPlan, plug: MouthPlug) -> Operation:
    left = "what the washer covers" if plug.bolt else "the stub at the point" if plug.centre_depth else PADDED
    word, lid = plan.job.called, plan.job.lid
    return at_lathe(
        f"{ID}.foot",
        "Turn the top: face it to the height."
        if lid
        else "Turn the foot: face it to the height, then hollow it."
        if plan.section.recess_radius and not plan.stack.floating
        else "Turn the foot: face it to the height.",
        how=(
            "Take light cuts with a sharp tool, towards the plug.",
            _faced(plan),
            f"Blend the {word.foot}'s edge into the side.",
            f"Leave {left}; it is finished by hand.",
            "Stop and feel for a loose fit after every cut.",
        ),
        settings=_sizes(plan),
        checks=(
            Check(
                "stands",
                f"Lathe stopped: straight edge from the {word.foot}'s rim inwards: no light at the rim",
                if_not="face the middle down",
            ),
            Check(
                "height",
                f"Rule from the flange's face to the {word.foot}",
                (
                    ruled(
                        "from-flange",
                        f"{word.foot.capitalize()}, over the flange's face",
                        _over_flange(plan, plug),
                    ),
                ),
                if_not=f"high: another light cut; the thickness of the {_kept(plan)} comes first",
            ),
        ),
        cautions=("lathe.stand", "lathe.bolt" if plug.bolt else "lathe.mouth", "lathe.gauge"),
        readings=(Reading("floor", f"{_kept(plan).capitalize()}, thick", _sizes(plan)[2]),),
        minutes=2 * GAUGED,
    )


def _over_flange(plan: VesselPlan, plug: MouthPlug) -> float:
    """How far the foot is from the flange's face; a taper is pressed home, so that the rim lies on it."""
    return plan.section.height if plug.way == "taper" else plug.face


def _hole(plan: VesselPlan) -> tuple[Quantity, ...]:
    return (calliper("hole", "Hole, across", plan.job.reversing.base_hole),)


def _faced(plan: VesselPlan) -> str:
    if plan.knob:
        return "Face it a hair hollow, so that the knob's shoulder closes on it."
    return "Face it flat." if plan.job.lid else "Face it a hair hollow, so that it stands on its rim."


_CLOSED = (
    "Glue a dowel, or a plug of the same wood, into the rod's hole and pare it level on both sides, unless it is to "
    "stay open."
)


def _done(plan: VesselPlan, plug: MouthPlug) -> Operation:
    word, loose = plan.job.called, plan.stack.floating is not None
    comes = (
        f"It sticks: rock it, and tap the plug's flange, never the {word.whole}."
        if plug.sticks
        else "It comes free by itself: hold it as you let go."
    )
    return at_bench(
        f"{ID}.done",
        f"Take the {word.whole} off the plug, and finish its {word.foot} by hand.",
        how=(
            *lathe.by_two(
                plan.stack.weighs_left,
                lathe.OFF.format("slackens the nut" if plug.bolt else "draws the tailstock back"),
            ),
            "Lathe off, slacken the nut." if plug.bolt else "Lathe off, draw the tailstock back.",
            comes,
            f"Rub the {word.foot} on abrasive on a flat board, through the same grits; nothing touches the base."
            if loose
            else f"Pare what is left in the middle with a sharp chisel, the {word.whole} on a folded cloth; sand it "
            "through the same grits.",
            *((_CLOSED,) if plug.bolt else ()),
        ),
        settings=_hole(plan) if plug.bolt else (),
        checks=right_if(
            "stands",
            _even(plan),
            if_not="rub it on abrasive on a flat board" + ("" if plan.job.lid else "; it must not rock"),
        ),
        cautions=("sander",) if loose else ("chisel",),
        minutes=each(len(plan.wood.finish.grits), SANDED, GAUGED),
    )


def _by_hand(plan: VesselPlan) -> Operation:
    word = plan.job.called
    return at_bench(
        f"{ID}.foot",
        f"Rub the {word.foot} flat by hand."
        if plan.section.through
        else f"Make the {word.foot} by hand: nothing holds this {word.whole} on the lathe.",
        how=(
            f"Clamp the {word.whole} on its side in a padded cradle, where its wall can take it, never across the "
            f"{word.mouth}.",
            f"Saw and pare the waste down to the {word.foot}'s plane.",
            "Rub it on abrasive on a flat board, turning it as you go, down to the height.",
            "Sand it through the same grits as the rest.",
        ),
        settings=_sizes(plan),
        checks=(
            Check(
                "stands",
                _even(plan) + ("" if plan.job.lid else "; it does not rock"),
                if_not="rub the high place",
            ),
            Check(
                "height", "Rule over the height at four places", if_not="higher on one side: rub that side"
            ),
        ),
        cautions=("chisel", "hand-saw", "sander"),
        minutes=each(len(plan.wood.finish.grits), GAUGED),
    )


STAGE: Stage[VesselPlan] = Stage(
    ID, "Take it off its waste block and finish that end", operations, jigs=(reversing,), remounts=True
)
