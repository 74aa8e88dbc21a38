"""The sled for wedge rings, on either saw: body, jaw, draw rod, wedges, first pass."""

from __future__ import annotations

from math import tan
from typing import TYPE_CHECKING

from geometry.hardware.draw_rod import RUBBER_RING, SLIP, DrawRod
from geometry.hardware.fittings import Fittings, called
from jigs.parts.part import Part
from jigs.stages.building.steps import common
from jigs.stages.building.steps.sleds import UPRIGHT
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from jigs.stages.wedge_rings.layout.sled import JAW_GAP
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.hardware import Hardware, Setting, bolts, counted, dowels, piece, sized, slug, told, used
from jigs.work.model import Check, Goods, Operation, Rack, at_bench, builds, right_if
from jigs.work.supplies import layers_glued

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan

THIN_END = "thickness at the stop"  # the dimension of a wedge
PEG_SHORT = 1.0  # mm of the peg short of the fence's rear face
BORED = 12.0  # minutes: both holes marked and bored


def ring_sled(plan: TorusPlan, rack: Rack) -> list[Operation]:
    """Everything that cuts the wedge faces."""
    bandsaw = isinstance(plan.sled, BandsawLayout)
    sled = common.Sled("ring-sled", "sled for wedge rings", "sled", saw="bandsaw" if bandsaw else "table saw")
    return [
        _body(plan, rack, sled),
        *common.runner(plan, rack, sled),
        *common.guide(plan, rack, sled),
        _jaw(plan, rack, sled),
        _first_pass(plan, sled),
        _rod(plan, rack),
        *(_wedge(plan, rack, name) for name in ("sled-wedge", "end-wedge") if rack.has(name)),
    ]


def _body(plan: TorusPlan, rack: Rack, sled: common.Sled) -> Operation:
    stop = (
        "Glue the stop cheeks in, pressed to the ends of their slots that are away from the ring.",
        *(("Glue the bridge across the end of the cut.",) if sled.saw == "bandsaw" else ()),
    )
    upright = Check(
        "stop",
        "Square on the base against the stop's edge: no light",
        if_not="lean it back before the glue grabs",
    )
    return common.body(plan, rack, sled, ("stop-cheek", "bridge"), stop, (upright,))


def _jaw(plan: TorusPlan, rack: Rack, sled: common.Sled) -> Operation:
    through = plan.sled.jaw_layers * plan.sled.sheet - plan.job.fittings.sink[1] + plan.sled.sheet
    across, deep = plan.job.fittings.sink
    return common.built(
        plan,
        "ring-sled-jaw",
        "Glue up the jaw, drill it for its screw, and bolt it to the fence.",
        (
            "Glue its plates together, edges flush.",
            "Drill down through its upper edge on the marked line, through the window and out below.",
            "Push a nut into the window, run the screw through it, and put a cap on its end.",
            "Counterbore both bolt holes in the face towards the blade: heads and washers lie below it.",
            "Bolt it to the fence with cap screws, washers and nuts behind the fence. It stays there.",
        ),
        sled.parts(rack, "jaw"),
        (
            calliper("drill", "Drill for the screw", plan.job.fittings.bolt_hole),
            calliper("screw-place", "Its middle from the face on the fence", plan.sled.jaw_screw[1]),
            _jaw_screw(plan.job.fittings),
            calliper("sink.across", "Counterbore, across", across),
            calliper("sink.deep", "Counterbore, deep", deep),
            bolts("jaw", "Cap screws", 2, plan.job.fittings.bolt, through),
        ),
        (
            Check(
                "clear",
                "Calliper from the base to the jaw's flat",
                (calliper("clear", "Jaw above the base", plan.sled.ring_height + JAW_GAP),),
                "too low: plane its lower edge; too high: open its bolt holes with a file and lower it",
            ),
            Check(
                "turns",
                "Turn the screw by hand: it runs down to the ring and presses it, and the jaw stays",
                if_not="drill the hole again, straight through the window",
            ),
        ),
        cautions=("saw.metal", "bench"),
    )


def _jaw_screw(fittings: Fittings) -> Hardware:
    screw = sized(fittings.bolt, fittings.jaw_screw)
    goods = (piece(f"screw.jaw-{slug(screw)}", f"{screw} screw with a knob, nut and end cap", 1),)
    return Hardware(counted("screw", "Jaw's screw", 1, screw), goods)


def _first_pass(plan: TorusPlan, sled: common.Sled) -> Operation:
    times = plan.blank.packing / tan(plan.sled.cut.half_wedge)
    return common.first_pass(
        sled,
        (ruled("height", plan.sled.called_height, plan.sled.saw_height),),
        right_if(
            "blade",
            "Calliper along the stop line, from the fence to the fresh edge",
            (
                calliper("stop-check", "From fence to edge", plan.sled.stop_check),
                Quantity("pack", "Pack the stop's edges by so many times what is too much", times, "ratio"),
            ),
            "too wide: pack all of the stop's edges; too narrow: plane them by as many times what is missing",
        ),
        UPRIGHT,
    )


def _rod(plan: TorusPlan, rack: Rack) -> Operation:
    rod: DrawRod = plan.sled.rod
    plug = (
        "Put on a cheek, the hub with a strip of rubber round it, the other cheek, a washer and a nut."
        if rod.hubbed
        else "Put on a washer, the rubber (hose, a stopper, or discs cut from sheet), a washer and a nut."
    )
    return common.built(
        plan,
        "ring-sled-rod",
        "Make the draw rod and the plug that takes hold in a ring's core.",
        (
            "Cut the threaded rod to length and lock a nut on its end, the rod flush with it.",
            plug,
            "Lay a large washer and a knob ready: they go on behind the fence.",
        ),
        common.named(rack, "sled-rod-stick", "sled-plug-cheek", "sled-plug-hub"),
        (
            Hardware(counted("rod", "Threaded rod", 1, called(rod.bolt)), _plug_goods(rod)),
            ruled("rod", "Rod, long", rod.length),
            ruled("knob", "Knob behind the fence, across, at most", plan.sled.knob, bound="most"),
            *_rubber(rod),
        ),
        right_if(
            "swells",
            "Tighten the plug's nut by hand: the rubber swells all round; slacken it, and it goes back",
            if_not="use rubber that is less hard",
        ),
        glued=False,
        cautions=(),
    )


def _plug_goods(rod: DrawRod) -> tuple[Goods, ...]:
    """Washers beside the rubber, unless cheeks of sheet are, and one behind the fence."""
    thread, size = slug(rod.bolt), calliper("across", "Across", rod.washer)
    rubber = (
        (calliper("thickness", "Thick", RUBBER_RING), calliper("width", "Wide", rod.rubber))
        if rod.hubbed
        else (calliper("across", "Across", rod.core - SLIP), calliper("length", "Long", rod.rubber))
    )
    return (
        piece(
            f"draw-rod.{thread}",
            f"{called(rod.bolt)} threaded rod with two nuts",
            1,
            ruled("length", "Long", rod.length),
        ),
        piece(f"washer.{thread}", f"{called(rod.bolt)} large washer", 2 if rod.hubbed else 3, size),
        piece(f"knob.{thread}", f"{called(rod.bolt)} knob with a thread through it", 1),
        piece("rubber", "rubber strip" if rod.hubbed else "rubber, bored for the rod", 1, *rubber),
    )


def _rubber(rod: DrawRod) -> tuple[Quantity, ...]:
    if rod.hubbed:
        return (
            calliper("rubber.thick", "Rubber strip, thick", RUBBER_RING),
            calliper("rubber.wide", "Rubber strip, wide", rod.rubber),
        )
    return (
        calliper("washer", "Washers, across", rod.washer),
        calliper("rubber.across", "Rubber, across", rod.core - SLIP),
        calliper("rubber.bore", "Rubber, bored", rod.diameter),
        calliper("rubber.long", "Rubber, long", rod.rubber),
    )


def _wedge(plan: TorusPlan, rack: Rack, name: str) -> Operation:
    """A stack of plates, or one printed block, bored for the rod and with its peg."""
    part, end = rack.part(name), name == "end-wedge"
    peg = (
        "Mark the peg's hole from behind, through the fence's hole near the apex.",
        "Bore it no deeper than listed, square to the fence edge, and glue in a hardwood dowel.",
    )
    settings = (*_bored(part), *_pegged(plan, _thinner(rack, part)))
    return at_bench(
        id=f"{common.ID}.{name}",
        does="Glue up, bore and peg the second wedge, for the ends of halves."
        if end
        else "Glue up the wedge of the second cut, bore it for the rod, and peg it.",
        how=(
            *(("Glue its plates into one stack, edges flush.",) if part.stack > 1 else ()),
            "Stand it on the fence, thin end at the stop, and mark it through the draw rod's hole.",
            "Bore the rod's hole, square to the fence edge.",
            *(peg if plan.sled.peg else ()),
        ),
        settings=told(settings),
        jigs=builds([part]),
        checks=(*_fits(rack, end), *(_PEGGED if plan.sled.peg else ())),
        cautions=("sled.peg", "bench") if plan.sled.peg else ("bench",),
        minutes=common.fitting([part]) + BORED,
        hours=plan.wood.glue.clamp_time,
        uses_up=(*used(settings), *layers_glued(plan, [part])),
    )


def _bored(part: Part) -> tuple[Quantity, ...]:
    """For the draw rod; about where its mark will come."""
    bore = part.bore
    if bore is None:
        return ()
    return (
        calliper("rod.bore", "Rod's hole, across", bore.across),
        ruled("rod.along", "Rod's middle from the thin end, about", bore.along),
        ruled("rod.up", "Rod's middle above the base, about", bore.up),
    )


def _pegged(plan: TorusPlan, thinner: float) -> tuple[Setting, ...]:
    """Of a wedge that is so much thinner than the first: its hole is as much less deep."""
    sled, peg = plan.sled, plan.sled.peg
    if peg is None:
        return ()
    depth = peg.depth(thinner)
    return (
        dowels(
            "peg.across", "Peg and its hole, across", plan.job.fittings.peg, 1, depth + sled.sheet - PEG_SHORT
        ),
        ruled("peg.along", "Peg's middle from the thin end, about", peg.to_stop - sled.arm[0]),
        ruled("peg.up", "Peg's middle above the base, about", peg.height),
        calliper("peg.depth", "Peg's hole, deep", depth),
        ruled("peg.long", "Peg's dowel, long", depth + sled.sheet - PEG_SHORT),
    )


def _thinner(rack: Rack, part: Part) -> float:
    """Than the sled's wedge, as both are drawn."""
    first, own = (
        next(dimension.value for dimension in one.dimensions if dimension.name == THIN_END)
        for one in (rack.part("sled-wedge"), part)
    )
    return first - own


def _fits(rack: Rack, end: bool) -> tuple[Check, ...]:
    if end:
        thinner = _thinner(rack, rack.part("end-wedge"))
        way = "thinner" if thinner >= 0 else "thicker"
        return right_if(
            "thinner",
            f"Calliper over the thin ends of both wedges: this one is {way}, as a half's end is sanded later",
            (calliper("thinner", f"{way.capitalize()} by", abs(thinner)),),
            "sand its fence edge",
        )
    return right_if(
        "parallel",
        "Before its peg goes in, lay it on the fence the wrong way round, thin end to the apex; calliper from its "
        "face to the blade line at both ends: both readings agree",
        if_not="paper under the end that is farther from the blade line; look at the fence's angle too",
    )


_PEGGED = right_if(
    "peg",
    "Press it onto its peg, thin end at the stop: it does not move along the fence",
    if_not="bore a new hole beside the first and glue in a new dowel",
)
