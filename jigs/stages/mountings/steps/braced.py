"""Mounting C, in the channel under braces: the hole side is turned."""

from __future__ import annotations

from geometry.hardware.fittings import called, washed
from jigs.plans.torus import TorusPlan
from jigs.stages.mountings.parts.braces import mountings
from jigs.stages.mountings.steps import common
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import faceplate_screws, washers_told
from jigs.work.lathe import SCALE, SHAPE, UNTIL, by_two, screwed, speeds
from jigs.work.minutes import CHECKED, CLAMPED, GAUGED, MOUNTED, TURNED, each, over
from jigs.work.model import Check, Goods, Operation, Rack, Reading, Stage, at_bench, at_lathe, right_if, uses
from jigs.work.steps import sanded
from jigs.work.supplies import glued_on, lining, sizes

ID = "braced_mounting"


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """The channel board turned, the work braced in it, its hole side turned and sanded."""
    return [
        _faceplate(plan, rack),
        _channel(plan, rack),
        _braces(plan, rack),
        _seat(plan),
        common.balanced(
            ID,
            "the board's back on the other side, beside the bolts' heads",
            plan.mountings.channel_screws.beyond,
        ),
        common.started(
            plan,
            ID,
            "the finished hole, at its narrowest",
            "slacken the braces, seat the work again, tighten",
            bolted=True,
            braced=True,
        ),
        _turn(plan, rack),
        sanded(
            plan,
            ID,
            "sand",
            "Sand what this mounting turned, grit by grit, for the retainer covers it next.",
            plan.torus_surface / 8,
            caution="lathe.sanding-braced",
        ),
    ]


def _faceplate(plan: TorusPlan, rack: Rack) -> Operation:
    held = plan.holding
    return at_bench(
        f"{ID}.faceplate",
        "Put the centre bolt through the channel board from its back, then screw the faceplate on.",
        how=(
            "Take the faceplate and the centre bolt off the retainer: both serve here.",
            f"Bore the board's back for the centre bolt's head, {common.let_in(plan, held.bolt)}.",
            f"Bore it for the heads of the braces' bolts too, {common.let_in(plan, held.brace_bolt)}. Try every bolt.",
            "Take the braces' bolts out again: none is in the board while it is turned.",
            "Screw the faceplate over the centre bolt, in the middle.",
            common.CAP,
        ),
        settings=(
            *screwed(plan.mountings.channel_screws),
            Quantity("bolt", "Centre bolt", called(held.bolt), "text"),
            ruled("bolt-length", "Bolt, under its head at least", plan.mountings.centre_bolt, bound="least"),
            *common.capped(plan),
            Quantity("braces", "Brace bolts", held.braces, "count"),
        ),
        jigs=uses(rack.named("support-board-layer")),
        checks=(common.head_holds("each bolt"),),
        cautions=("lathe.screws", "lathe.braces"),
        minutes=each(plan.mountings.channel_screws.count + held.braces, CLAMPED),
        uses_up=(faceplate_screws(plan.mountings.channel_screws), common.centre_bolt(plan)),
    )


def _lining(plan: TorusPlan) -> tuple[Goods, ...]:
    thickness, channel = plan.job.form.lining, plan.holding.channel
    across = 2 * channel.major + channel.width
    return lining("channel", "the channel", *sizes(thickness, across, across)) if thickness else ()


def _channel(plan: TorusPlan, rack: Rack) -> Operation:
    channel, held = plan.holding.channel, plan.holding
    lining = plan.job.form.lining
    lined = calliper("lining", "Lining in the channel, thick", lining)
    return at_lathe(
        f"{ID}.channel",
        "Turn the second board: rim and face, then the channel to the finished side.",
        how=(
            "Turn the rim to its diameter and the face flat.",
            "Turn the channel to its gauge.",
            "Cut the relief along its bottom, so that the work seats on the two flanks.",
            "Measure the sanded side and fit the channel to it, not to the plan.",
            *glued_on(lining, "on both flanks, none in the relief,"),
        ),
        settings=(
            *speeds(plan.rim_speed),
            ruled("board", "Board, across", held.board_diameter),
            ruled("middle", "Middle of the channel, across", 2 * channel.major),
            ruled("width", "Channel at the face, wide", channel.width),
            calliper("depth", "Channel, deep", channel.depth),
            ruled("relief.width", "Relief at the bottom, wide", channel.relief_width),
            calliper("relief.depth", "Relief, deep", channel.relief_depth),
            *((lined,) if lining else ()),
        ),
        jigs=uses(rack.named("channel-section", "channel-gauge"), notes=True),
        checks=(
            Check(
                "gauge", "Lathe stopped: channel gauge, its long edge on the face, no light", if_not="scrape"
            ),
            Check(
                "seats",
                "Chalk the flanks and lay the work in: chalk all round on both, and it does not rock",
                if_not=f"it rocks: {'sand the lining' if lining else 'turn the flank'} that marks in one place only",
            ),
            common.runout(plan, "the board's face and both flanks", "turn it again, without taking it off"),
        ),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=MOUNTED + 3 * GAUGED,
        hours=plan.wood.glue.clamp_time if lining else 0.0,
        uses_up=_lining(plan),
    )


def _braces(plan: TorusPlan, rack: Rack) -> Operation:
    brace, held = plan.mountings.brace, plan.holding
    return at_bench(
        f"{ID}.braces",
        "Bring the blocks under the braces to their height.",
        how=(
            *(("Lay a pad on each stack of block layers.",) if brace.layers else ("Use the pads alone.",)),
            "Measure the waste flat over the board, the work in its channel.",
            "Shim or sand each stack until it is a little lower than the flat, never higher.",
        ),
        makes=(held.braces, "brace"),
        settings=(
            calliper("flat", "Waste flat over the board", brace.height),
            calliper("stack", "Block and pad together", brace.stack),
            ruled("finger", "Finger on the waste flat", brace.bearing),
        ),
        jigs=uses(rack.named("brace-strap", "brace-block-layer", "brace-pad"), notes=True),
        checks=right_if(
            "finger",
            "Strap across block and flat, pressed down: paper slides under its middle, not under its finger",
            if_not="the finger is free: the block is too high, sand it",
        ),
        readings=(
            Reading("flat", "Waste flat over the board", calliper("planned", "planned", brace.height)),
        ),
        minutes=each(held.braces, CHECKED),
    )


def _washers(plan: TorusPlan) -> tuple[Quantity, ...]:
    brace = plan.mountings.brace
    found = washed(brace.bolt, brace.through)
    return () if found is None else washers_told(*found[1:])


def _seat(plan: TorusPlan) -> Operation:
    return at_lathe(
        f"{ID}.seat",
        "Seat the work in its channel and tighten the braces crosswise.",
        how=(
            "Push the braces' bolts in from the back, their heads home in their places.",
            *by_two(plan.mountings.weighs, UNTIL.format("every nut is on")),
            "Lay the finished side in the channel; press it home by hand, all round.",
            "Put a block, a pad and a strap on every bolt, by their numbers; washer and nut.",
            "Set every finger over the middle of the tube, on the outer half of its flat.",
            "Tighten the nuts crosswise, a little at a time. " + SCALE[plan.job.unit],
            "Put all that is listed under each nut: a bolt ends a thread or two past its nut, and none is sawn off.",
        ),
        settings=(
            *common.pulled(plan, "C"),
            Quantity("braces", "Braces", plan.holding.braces, "count"),
            *_washers(plan),
        ),
        known=common.scale(plan, "C"),
        checks=(
            Check(
                "pressed",
                "Tap every strap: none rattles; the work does not move by hand",
                if_not="tighten it",
            ),
            Check(
                "again",
                "After five minutes of turning: every nut is still tight",
                if_not="tighten all of them again",
            ),
        ),
        cautions=("lathe.braces",),
        minutes=each(plan.holding.braces, CLAMPED, MOUNTED),
    )


def _turn(plan: TorusPlan, rack: Rack) -> Operation:
    stage = plan.sizes.stages[-1]
    return at_lathe(
        f"{ID}.turn",
        "Turn the hole side up to the braces' fingers, to the finished gauge.",
        how=(
            *common.round_tube(plan),
            "Begin on what mounting A finished, and run out of it without a step.",
            "After five minutes stop the lathe and try every brace's nut.",
            "Turn up to the fingers, and stop the tool's room before them.",
            "The centre bolt's cap spins in the hole: keep the tool off it, and rest it on the rest before it cuts.",
        ),
        settings=(
            *common.turned(plan.mountings.named("C")),
            ruled("room", "Stop short of the fingers", plan.mountings.setting.tool_room),
            calliper("hole", "Hole, across", 2 * stage.hole),
            ruled("cap", "Bolt's cap, across at most", plan.mountings.cap, bound="most"),
        ),
        jigs=uses(rack.named("standing-gauge-c-inner"), notes=True),
        checks=(
            SHAPE,
            Check(
                "joins",
                "Finger along the tube, lathe stopped: no step where mounting A ended",
                if_not="blend it from this side with the lightest cut",
            ),
        ),
        cautions=("lathe.brace-ends", "lathe.gauge", "lathe.stand"),
        minutes=over(plan.torus_surface / 8, 2 * TURNED, 2 * GAUGED),
    )


STAGE: Stage[TorusPlan] = Stage(
    ID, "Mounting C: in the channel, under braces", operations, jigs=(mountings,), remounts=True
)
