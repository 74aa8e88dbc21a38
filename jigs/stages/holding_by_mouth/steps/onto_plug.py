"""A vessel set onto the plug that holds it by its mouth: the operation."""

from __future__ import annotations

from geometry.hardware.fittings import called
from geometry.statics.lathe_holding import MOST_PULL
from jigs.plans.vessel import VesselPlan
from jigs.stages.holding_by_mouth.plan import MouthPlug
from jigs.words.quantity import Quantity, ruled
from jigs.work import lathe
from jigs.work.minutes import MOUNTED
from jigs.work.model import Check, Operation, at_lathe

HELD = {  # of what it is and its mouth
    "taper": "Jam the {1} onto the plug's taper, and bring up the tailstock.",
    "inside": "Set the {0} over the plug that fits its inside, and push it on with the tailstock.",
    "bolt": "Set the {0} over the plug that fits its inside, and draw it on with the rod.",
}
INSIDE = "It touches inside only; the rim stays clear of the flange."
ROD = "Screw the rod into the plug's nut until its end is through, then slide the work over it."
TAPED = "Tape it to the flange all round, drawn tight: a belt beside the plug, not what holds it."
STANDS = "Stand the rim on the plug's flange, and draw it on with the rod."


def held(stage: str, plan: VesselPlan, plug: MouthPlug) -> Operation:
    """Pressed onto the plug, or drawn onto it by a rod, until it runs true."""
    word = plan.job.called
    return at_lathe(
        f"{stage}.held",
        STANDS if plug.way == "bolt" and plug.stands else HELD[plug.way].format(word.whole, word.mouth),
        how=(
            *_felt(plan, plug),
            *lathe.by_two(plan.stack.weighs_left, lathe.UNTIL.format("it is pressed home")),
            *_seated(plug),
            *_pressed(plan, plug),
            TAPED,
        ),
        settings=(*_press(plug, word.foot), *_recess(plug)),
        known=lathe.scaled(plan.job.unit, plug.torque, plug.most_torque) if plug.bolt else (),
        checks=(
            Check(
                "firm",
                f"Try to turn the {word.whole} on the plug by hand: it does not move",
                if_not="chalk the plug, and turn down what marks alone",
            ),
            lathe.runout_check(plan.waste.runout, side(plan), "seat it again, turned a little"),
        ),
        cautions=("lathe.bolt",) if plug.bolt else ("lathe.mouth",),
        minutes=MOUNTED,
    )


def side(plan: VesselPlan) -> str:
    """Where its runout is measured."""
    return f"the {plan.job.called.whole}'s side, near the {plan.job.called.foot}"


def _seated(plug: MouthPlug) -> tuple[str, ...]:
    if plug.way == "taper":
        return (
            "Lean on it with both hands until the rim meets the flange; never drive it.",
            "It jams on its own: the tape and the tailstock keep it there.",
        )
    if plug.bolt:
        return (
            ROD,
            "The rim lies flat on the flange; the spigot only centres it." if plug.stands else INSIDE,
        )
    if plug.stands:
        return ("The rim lies flat on the flange; the spigot only centres it.",)
    return (INSIDE,)


def _pressed(plan: VesselPlan, plug: MouthPlug) -> tuple[str, ...]:
    foot = plan.job.called.foot
    if plug.bolt:
        return (f"Put washer and nut on under the {foot}. " + lathe.SCALE[plan.job.unit],)
    if plug.centre_depth:
        return (
            f"Turn the tailstock's point into the middle of the waste under the {foot}; keep it up until the last cut.",
        )
    floats, wide = plan.stack.floating, ""
    if floats:  # the ledge alone, as thin as it is, would break off
        least = plan.job.at_least(2 * min(floats.base.groove, plan.section.foot_radius))
        wide = (
            f", at least {least} across, so that it presses outside the groove and not on the floating base"
        )
    return (f"Set a padded block between tailstock and {foot}{wide}; keep it up to the end.",)


def _felt(plan: VesselPlan, plug: MouthPlug) -> tuple[str, ...]:
    """How a push of the tailstock is known, which has no gauge."""
    strong = (lathe.STRONG[plan.job.unit],) if plug.least_push > lathe.SCALE_READS else ()
    return () if plug.bolt else (lathe.PUSHED[plan.job.unit], *strong)


def _press(plug: MouthPlug, foot: str) -> tuple[Quantity, ...]:
    return (
        *(
            (
                Quantity("bolt", "Rod", called(plug.bolt.thread), "text"),
                ruled("bolt-length", "Rod past the plug's nut, at least", plug.bolt.length, bound="least"),
                ruled("washer", f"Washer under the {foot}, across", plug.bolt.washer),
                Quantity("pull", "Draw the bolt with, at least", plug.least_push, "force", bound="least"),
                *lathe.tightened(plug.torque, plug.most_torque),
            )
            if plug.bolt
            else (
                Quantity(
                    "push", "Push with the tailstock, at least", plug.least_push, "force", bound="least"
                ),
                *(
                    (Quantity("push.most", "and at most", plug.most_push, "force", bound="most"),)
                    if plug.most_push < MOST_PULL
                    else ()
                ),
            )
        ),
    )


def _recess(plug: MouthPlug) -> tuple[Quantity, ...]:
    if not plug.centre_depth:
        return ()
    return (
        ruled("point.across", "Recess for the tailstock's point, 60°, across", plug.centre_recess),
        ruled("point.depth", "Recess, deep, in the waste", plug.centre_depth),
    )
