"""Mounting B, on the retainer: the first board is turned away."""

from __future__ import annotations

from geometry.bodies.tube import Tube
from jigs.plans.torus import TorusPlan
from jigs.stages.mountings.steps import common
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import faceplate_screws
from jigs.work.lathe import OFF, SCALE, UNTIL, by_two, lifted, screwed, speeds
from jigs.work.minutes import CLAMPED, CROSSCUT, GAUGED, MOUNTED, TURNED, each, over
from jigs.work.model import Check, Goods, Operation, Rack, Stage, at_bench, at_lathe, right_if, uses
from jigs.work.supplies import glued_on, lining, sizes

ID = "reversed_mounting"


def operations(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """The retainer turned, the work reversed on it, the first board turned and sawn away."""
    return [
        _faceplate(plan, rack),
        _retainer(plan, rack),
        _reverse(plan),
        common.started(
            plan,
            ID,
            "the finished rim",
            "slacken the nut, turn the work on the retainer, tighten, measure again",
            True,
        ),
        _turn_away(plan),
        _saw(plan),
    ]


def _faceplate(plan: TorusPlan, rack: Rack) -> Operation:
    return at_bench(
        f"{ID}.faceplate",
        "Put the centre bolt through the retainer from its back, then screw a faceplate on.",
        how=(
            "Unscrew the faceplate from the first board; the work stays glued to it.",
            f"Bore the retainer's back for the bolt's head, {common.let_in(plan, plan.holding.bolt)}.",
            "Screw the faceplate over it, in the middle of the retainer's rim side.",
            "If yours is wider, or its screws farther out, put a disc of board no wider than set between the two.",
            common.CAP,
        ),
        settings=(
            *screwed(plan.mountings.retainer_screws),
            ruled("faceplate", "Faceplate, at most Ø", plan.holding.retainer_faceplate, bound="most"),
            ruled("bolt-length", "Bolt, under its head at least", plan.mountings.centre_bolt, bound="least"),
            *common.capped(plan),
        ),
        jigs=uses(rack.named("retainer-layer"), notes=True),
        checks=(common.head_holds("the bolt"),),
        cautions=("lathe.screws",),
        minutes=each(plan.mountings.retainer_screws.count, CLAMPED, GAUGED),
        uses_up=(faceplate_screws(plan.mountings.retainer_screws), common.centre_bolt(plan)),
    )


def _lining(plan: TorusPlan) -> tuple[Goods, ...]:
    thickness, across = plan.job.form.lining, 2 * plan.holding.retainer.top_radius
    return lining("retainer", "the retainer's hollow", *sizes(thickness, across, across)) if thickness else ()


def _layers(plan: TorusPlan) -> str:
    """Thickness of the glued retainer."""
    return plan.job.show(plan.holding.retainer_layers * plan.holding.layer_thickness)


def _retainer(plan: TorusPlan, rack: Rack) -> Operation:
    plug, held, lining = plan.holding.retainer, plan.holding, plan.job.form.lining
    lined = calliper("lining", "Lining in the hollow, thick", lining)
    return at_lathe(
        f"{ID}.retainer",
        "Turn the retainer to its section.",
        how=(
            f"Face its front down to the height over all: its layers are {_layers(plan)} together.",
            "Turn the rim to its diameter, then the neck.",
            "Turn the hollow between them to the gauge; it is not a cone.",
            "Leave the rim straight over the hollow: sharper, it spins as a knife.",
            *glued_on(lining, "in the hollow"),
        ),
        settings=(
            *speeds(held.retainer_speed),
            calliper("rim", "Rim, across", 2 * plug.top_radius),
            calliper("neck", "Neck, across", 2 * plug.neck_radius),
            ruled("height", "Height over all", plug.height),
            *_hollow(plug.hollow),
            ruled("land", "Rim, straight over the hollow", plug.land),
            ruled("blank", "Turn it from a disc, across", held.retainer_blank),
            *((lined,) if lining else ()),
        ),
        jigs=uses(rack.named("retainer-section", "retainer-gauge"), notes=True),
        checks=(
            Check(
                "hollow",
                "Lathe stopped: retainer gauge in the hollow, its hook on the front, no light",
                if_not="scrape where it shows",
            ),
            Check(
                "fits",
                "Chalk the hollow and try it in the work: it touches all round, and its neck passes",
                if_not=f"touches in one place: {'sand' if lining else 'turn'} that place; the neck binds: turn it down",
            ),
            common.runout(plan, "the retainer's rim and hollow", "turn it again, without taking it off"),
        ),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=MOUNTED + 2 * GAUGED,
        hours=plan.wood.glue.clamp_time if lining else 0.0,
        uses_up=_lining(plan),
    )


def _reverse(plan: TorusPlan) -> Operation:
    return at_lathe(
        f"{ID}.reverse",
        "Turn the work round onto the retainer and draw it up with the bolt.",
        how=(
            "Take the cap off the bolt.",
            *by_two(plan.mountings.lifted, UNTIL.format("the nut is tight")),
            "Slide the work over the retainer, its finished face first; the bolt comes out through the first board.",
            "Put washer and nut on the bolt, and draw it up by hand.",
            SCALE[plan.job.unit],
            common.CAP_AGAIN,
            "It is centred by the finished hole on the retainer's hollow; nothing else touches.",
        ),
        settings=(*common.pulled(plan, "B"), ruled("washer", "Washer, across", plan.holding.washer)),
        known=(*common.scale(plan, "B"), *lifted(plan.mountings.lifted, "board")),
        checks=right_if(
            "tight",
            "Try to turn the work on the retainer by hand: it does not move",
            if_not="tighten on, up to the most that is listed",
        ),
        cautions=("lathe.bolt",),
        minutes=MOUNTED,
    )


def _turn_away(plan: TorusPlan) -> Operation:
    first = plan.mountings.first
    return at_lathe(
        f"{ID}.turn-away",
        "Turn the first board's rim away, and stop short of the flats that it is glued to.",
        how=(
            "Look first: nothing of the block that balances the board stands past this diameter.",
            "Turn the rim down in light cuts, from outside in.",
            "Stop at this diameter: the glue on the flats stays whole, for it takes the bolt's pull.",
        ),
        settings=(ruled("left", "Turn the board down to, across", 2 * first.left),),
        known=(ruled("short", "It then stands past the flats' corners by", first.saw_short),),
        checks=right_if(
            "short", "Lathe stopped: calliper over the board", if_not="wider: the saw takes it too"
        ),
        cautions=("lathe.part-off", "lathe.bolt", "lathe.stand"),
        minutes=over(plan.torus_surface / 4, 2 * TURNED, GAUGED),
    )


def _saw(plan: TorusPlan) -> Operation:
    return at_bench(
        f"{ID}.saw",
        "Saw off by hand what is left of the first board, and take the work off the retainer.",
        how=(
            "Switch off, unplug, lock the spindle, and unscrew the block that balances the board.",
            "Saw round from outside, in the board's wood beside the flats.",
            "Keep the flats whole: the braces press on them.",
            *by_two(plan.mountings.weighs, OFF.format("slackens the nut")),
            "Slacken the nut and lift the work off; tap the retainer out from behind if it sticks."
            if plan.holding.sticks
            else "Slacken the nut and lift the work off; it comes free.",
        ),
        checks=right_if(
            "flats", "Every flat is whole, with nothing standing on it", if_not="plane off what stands up"
        ),
        cautions=("hand-saw",),
        minutes=each(plan.blank.wedge_rings, CROSSCUT),
    )


def _hollow(hollow: Tube) -> tuple[Quantity, ...]:
    if hollow.round:
        return (calliper("hollow", "Radius of the hollow", hollow.wide),)
    return (
        calliper("hollow", "Hollow, an ellipse: wide", 2 * hollow.wide),
        calliper("hollow.high", "Hollow, an ellipse: high", 2 * hollow.high),
    )


STAGE: Stage[TorusPlan] = Stage(
    ID, "Mounting B: on the retainer, the first board off", operations, remounts=True
)
