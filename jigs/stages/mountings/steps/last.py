"""Mounting D, in the channel under the retainer: the rest is turned."""

from __future__ import annotations

from jigs.plans.torus import TorusPlan
from jigs.stages.mountings.steps import common
from jigs.words.quantity import calliper, ruled
from jigs.work.lathe import OFF, SCALE, SHAPE, by_two
from jigs.work.minutes import GAUGED, MOUNTED, TURNED, over
from jigs.work.model import Check, Operation, Rack, Stage, at_lathe, right_if, uses
from jigs.work.steps import sanded

ID = "last_mounting"


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """The retainer drawn tight, the braces off, the waste flats turned away, sanded, taken off."""
    return [
        _retain(plan),
        common.started(
            plan, ID, "the finished rim", "slacken the nut, seat the work again in its channel, tighten", True
        ),
        _turn(plan, rack),
        sanded(
            plan,
            ID,
            "sand",
            "Sand what this mounting turned, and blend it into what was sanded before.",
            plan.torus_surface / 3,
        ),
        _off(plan),
    ]


def _retain(plan: TorusPlan) -> Operation:
    plug = plan.holding.retainer
    return at_lathe(
        f"{ID}.retainer",
        "Put the retainer in the hole, draw its bolt tight, and only then take the braces off.",
        how=(
            "Leave the channel board and the work as they are.",
            "Take the cap off the centre bolt.",
            "Push the retainer's neck through the hole over the bolt; washer, then nut.",
            SCALE[plan.job.unit],
            common.CAP_AGAIN,
            "Take off one brace after another, and push its bolt out at the back: none may spin beside the rim.",
        ),
        settings=(
            *common.pulled(plan, "D"),
            ruled("washer", "Washer, across", plan.holding.washer),
            calliper("band.from", "Retainer touches, over the middle of the tube, from", plug.band_low),
            calliper("band.to", "to", plug.band_high),
        ),
        known=common.scale(plan, "D"),
        checks=right_if(
            "clear",
            "The retainer's foot is clear of the board: paper slides under it",
            (ruled("foot", "Planned gap", plug.board_clearance),),
            "it stands on the board and does not press: turn its foot shorter",
        ),
        cautions=("lathe.bolt",),
        minutes=MOUNTED,
    )


def _turn(plan: TorusPlan, rack: Rack) -> Operation:
    stage = plan.sizes.stages[-1]
    return at_lathe(
        f"{ID}.turn",
        "Turn the waste flats away, from the retainer over the back to the rim.",
        how=(
            *common.round_tube(plan),
            "Turn the flats down in light cuts to the first stage by eye, then to the gauge.",
            "Run out of what mounting C finished, and into the rim, without a step.",
            "Keep the tool's room from the retainer.",
        ),
        settings=(
            *common.turned(plan.mountings.named("D")),
            ruled("room", "Stop short of the retainer", plan.mountings.setting.tool_room),
            calliper("outer", "Rim, across", 2 * stage.outer),
            calliper("back", "Back, over the board", plan.holding.channel.centre_height + stage.tube.high),
        ),
        jigs=uses(rack.named("standing-gauge-d-outer"), notes=True),
        checks=(
            SHAPE,
            Check("joins", "Finger along the tube, lathe stopped: no step at rim or hole", if_not="blend it"),
        ),
        cautions=("lathe.gauge", "lathe.bolt", "lathe.stand"),
        minutes=over(plan.torus_surface / 3, 2 * TURNED, 2 * GAUGED),
    )


def _off(plan: TorusPlan) -> Operation:
    return at_lathe(
        f"{ID}.off",
        "Take the torus off.",
        how=(
            *by_two(plan.mountings.weighs, OFF.format("slackens the nut")),
            *(
                (
                    "Slacken the nut; lift the torus off with both hands, the retainer in it.",
                    "Tap the retainer out by its neck.",
                )
                if plan.holding.sticks
                else (
                    "Slacken the nut and lift the retainer out; hold the torus.",
                    "Lift the torus out of its channel with both hands.",
                )
            ),
            "Rub by hand, with the finest grit, where retainer and channel touched it.",
        ),
        makes=(1, "torus"),
        checks=(
            Check(
                "tube",
                "Calliper over the tube in four directions",
                common.tube_sizes(plan.job.form.tube),
                "over in one direction: rub it down there by hand",
            ),
            Check(
                "whole", "Every joint, inside and out: closed", if_not="work thin glue in before the finish"
            ),
        ),
        minutes=MOUNTED / 4,
    )


STAGE: Stage[TorusPlan] = Stage(
    ID, "Mounting D: in the channel, under the retainer", operations, remounts=True
)
