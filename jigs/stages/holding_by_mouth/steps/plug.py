"""The plug that a vessel is held by, turned on a faceplate of its own: the operations."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from geometry.hardware.fittings import called, nut_place
from jigs.plans.vessel import VesselPlan
from jigs.stages.holding_by_mouth.plan import MouthPlug
from jigs.words.lengths import Unit, show_length
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import faceplate_screws, piece
from jigs.work.lathe import runout_check, screwed, speeds
from jigs.work.minutes import CLAMPED, GAUGED, MOUNTED
from jigs.work.model import Check, Goods, Operation, Rack, at_bench, at_lathe, right_if, uses
from jigs.work.supplies import glued_on, lining, sizes

SUNK = (
    "Bore the flange's back for a nut, {place}. Glue a slip of hardwood beside a flat: it cannot turn. The rod goes "
    "in from the front, the plug turned."
)


def plug_made(of: str, plan: VesselPlan, plug: MouthPlug, rack: Rack) -> list[Operation]:
    """Its faceplate, then its side; the discs are glued already."""
    return [_faceplate(plan.job.unit, of, plug), _turned(of, plan, plug, rack)]


def _nut_place(unit: Unit, thread: str) -> str:
    across, deep = (show_length(mm, unit) for mm in nut_place(thread))
    return f"{across} across and {deep} deep"


def _faceplate(unit: Unit, of: str, plug: MouthPlug) -> Operation:
    bolt = plug.bolt
    return at_bench(
        f"{of}.faceplate",
        "Screw the faceplate to the flange of the glued plug.",
        how=(
            "Unscrew the faceplate from the waste block.",
            *((SUNK.format(place=_nut_place(unit, bolt.thread)),) if bolt else ()),
            "Screw it to the flange's back, in the middle.",
        ),
        settings=(
            *screwed(plug.screws),
            *(
                (
                    Quantity("bolt", "Rod", called(bolt.thread), "text"),
                    ruled("bolt-length", "Rod past that nut, at least", bolt.length, bound="least"),
                )
                if bolt
                else ()
            ),
        ),
        checks=right_if("tight", "Every screw bites, none comes through", if_not="another place; never a longer screw"),
        cautions=("lathe.screws",),
        minutes=plug.screws.count * CLAMPED,
        uses_up=(faceplate_screws(plug.screws), *_bolt(plug)),
        known=(ruled("flange", "Flange, thick", plug.back - plug.face),),
    )  # fmt: skip


def _bolt(plug: MouthPlug) -> tuple[Goods, ...]:
    bolt = plug.bolt
    if bolt is None:
        return ()
    size = (
        ruled("length", "Past its first nut, at least", bolt.length, bound="least"),
        ruled("washer", "Washer, across", bolt.washer),
    )
    return (
        piece(
            "bolt.mouth-plug", f"{called(bolt.thread)} threaded rod with two nuts and large washer", 1, *size
        ),
    )


def _turned(of: str, plan: VesselPlan, plug: MouthPlug, rack: Rack) -> Operation:
    return at_lathe(
        f"{of}.plug",
        "Turn the plug to its section, and leave it on its faceplate.",
        how=(
            "Turn the flange round and its front face flat.",
            "Face the plug's front as far in front of the flange as listed.",
            *_fitted(plug, plan.job.called.mouth, plan.job.reversing.lining),
            "Never take it off its faceplate: it would not run true again.",
        ),
        settings=(*speeds(plug.speed), *_sizes(plan, plug), *_lining(plan)),
        jigs=uses(rack.named("mouth-plug-section", "mouth-plug-gauge"), notes=True),
        checks=(
            Check(
                "gauge",
                "Lathe stopped: plug gauge on its side, its hook on the front face: no light",
                if_not="scrape where it shows",
            ),
            _fits(plug, plan.job.called.mouth, plan.job.reversing.lining),
            runout_check(plan.waste.runout, "the plug's side", "turn it again, without taking it off"),
        ),
        cautions=("lathe.gauge", "lathe", "lathe.stand"),
        minutes=MOUNTED + 2 * GAUGED,
        hours=plan.wood.glue.clamp_time if plan.job.reversing.lining else 0.0,
        uses_up=_lined(plan, plug),
    )


def _fitted(plug: MouthPlug, mouth: str, lining: float) -> Iterator[str]:
    if lining:
        yield "Turn its side to the gauge, no larger: the lining brings it to its size."
        yield from glued_on(lining, "round its side")
    elif plug.way == "taper":
        yield f"Leave the taper large, try it in the {mouth}, lathe stopped, and turn it down little by little."
        yield f"Stop when the {mouth} jams with its rim this far short of the flange."
    elif plug.stands:
        yield f"Turn the spigot until it enters the {mouth} freely; it only centres."
    else:
        yield "Turn its side to the gauge, a little large, and try it inside with chalk on it."


def _fits(plug: MouthPlug, mouth: str, lining: float) -> Check:
    if plug.way == "taper":
        return Check(
            "jams",
            f"Lathe stopped: try the {mouth} on the taper by hand",
            (calliper("short", "Rim short of the flange when it jams", plug.press),),
            f"farther out: {'sand the lining' if lining else 'a lighter cut'}; nearer: turn the flange's face back",
        )
    if plug.stands:
        return Check("flat", "The rim lies on the flange all round, no light", if_not="face the flange again")
    turned = "sand" if lining else "turn"
    return Check(
        "chalk", "Chalk on the plug marks the inside all round", if_not=f"{turned} down what marks alone"
    )


def _sizes(plan: VesselPlan, plug: MouthPlug) -> Iterator[Quantity]:
    mouth = plan.job.called.mouth
    yield ruled("flange", "Flange, across", 2 * plug.flange)
    yield ruled("reach", "Plug's front, in front of the flange's face", plug.face - plug.tip)
    if plug.way == "taper":
        yield calliper("jam", f"Taper where the {mouth} jams, across", plug.jam_diameter)
        yield Quantity("taper", "Taper, its side off the axis", plug.slope, "angle")
        yield calliper("stretch", f"Pressed home, it stretches the {mouth} by", plug.stretch)
    elif plug.stands:
        yield calliper("spigot", "Spigot, across", plug.jam_diameter)
    else:
        yield calliper("bears", "Plug, across, at the upper end of what touches", plug.jam_diameter)
        yield calliper("bears.low", "and at its front", 2 * plug.bearing.start[0])
        yield ruled("clear", "Rim stays clear of the flange by", plug.face - plan.section.height)


def _lining(plan: VesselPlan) -> tuple[Quantity, ...]:
    lining = plan.job.reversing.lining
    return (calliper("lining", "The section leaves room for a lining, thick", lining),) if lining else ()


def _lined(plan: VesselPlan, plug: MouthPlug) -> tuple[Goods, ...]:
    thickness = plan.job.reversing.lining
    side = sizes(thickness, plan.section.height - plug.tip, pi * plug.jam_diameter)
    return lining("mouth-plug", "the mouth plug", *side) if thickness else ()
