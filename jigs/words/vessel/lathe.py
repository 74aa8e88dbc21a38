"""Gauges and holding in words and tables."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, degrees

from geometry.fasteners import bolt_diameter
from geometry.lathe_holding import TOOL_FORCE
from jigs.cautions import told
from jigs.lengths import bolt_text, show_length
from jigs.plan.vessel import VesselPlan
from jigs.plan.vessel.holding import MouthPlug
from jigs.strength import force_text, stress_text, torque_text
from jigs.words.sections import Row, Section

HELD = {
    "taper": "a taper jammed into the mouth",
    "inside": "a plug turned to the inside, the tailstock on the foot",
    "stands": "its rim on the plug's flange, drawn by a bolt through the floor; the plug only centres it",
    "bolt": "a plug turned to the inside, drawn by a bolt through the floor",
}

BY_HAND = (
    "Nothing holds it for the foot, which is finished by hand. Part off short of the foot, tailstock up, and saw the "
    "last of it by hand, lathe stopped; pare and sand the foot on the bench, the vessel padded and clamped where its "
    "wall stands it.",
)

ORDER = (
    "1. True the outside by stages: stations by gap gauges, then the profile by its gauges. Face the rim.",
    "2. Only now take the tailstock away, and hollow in light cuts, the mouth first, by stages, with the inside gauge "
    "as far as it reaches.",
    "3. Sand at low speed, rest removed, no cloth round the fingers, dust mask.",
)

STEM_ORDER = (
    "1. Cup before stem: true the outside of the cup by stages, gap gauges first, then its profile gauges. Leave the "
    "stem as thick as it was glued. Face the rim.",
    "2. Take the tailstock away and hollow the cup in light cuts, a steady rest on its outside, by stages, with the "
    "inside gauge as far as it reaches. Sand the cup, rest removed.",
    "3. Bring the tailstock up to a soft block in the cup. Only now turn the stem and the foot by stages, from the cup "
    "down, light cuts, fingers off the thin part; no more cuts on the cup once the stem is slim.",
)


def first_mounting_section(plan: VesselPlan) -> Section:
    """The stack on its waste block: before it spins, and the order of the work."""
    rings, (least, most) = plan.job.rings, plan.stack.waste_across
    return Section(
        "First mounting: the stack on its waste block",
        (
            Row("waste block, thickness", rings.waste_block),
            Row("waste block, across at least", least),
            Row("waste block, across at most", most),
            Row("swings", 2 * plan.stack.largest_radius),
        ),
        (
            "The faceplate's screws go into the waste block only, and stop short of the lowest ring.",
            "Before it spins: glue cured 24 hours, every joint tapped and looked at, one full turn by hand, tailstock "
            "up as long as it fits, lowest speed first, never over the lower of the rim's speed and the lathe maker's "
            "rating; full face shield, out of the plane of the work.",
            *told("lathe.clothes"),
            *(STEM_ORDER if plan.stack.stemmed else ORDER),
            _last(plan),
            "A mouth too narrow for your tools: hollow the lower half before the upper rings are glued on.",
            *told("lathe.manual"),
        ),
    )


def _last(plan: VesselPlan) -> str:
    """The step in which the foot comes free; the tailstock stands on it where no bolt goes through it."""
    plug = plan.reversing.plug
    sand = "Sand the stem with the tailstock up. " if plan.stack.stemmed else ""
    part = f"4. {sand}Saw or part off short of the foot, lathe stopped for the saw;"
    if plug is None:
        return f"{part} the foot is finished by hand, as told below."
    if not plan.stack.stemmed:
        return f"{part} reverse it, held as told below."
    return f"{part} hold it by the cup as told below" + (
        ", the tailstock on the foot." if plug.bolt is None else "."
    )


def gauge_sections(plan: VesselPlan) -> list[Section]:
    """Profile gauges, then diameters."""
    return [_profiles(plan), _diameters(plan)]


def _profiles(plan: VesselPlan) -> Section:
    gauges, unit = plan.gauges, plan.job.unit
    left = tuple(Row(f"left by the gauge, {stage.label.lower()}", stage.offset) for stage in gauges.stages)
    pieces = tuple(
        Row(
            f"outside gauge, piece {piece.number}",
            f"height {show_length(piece.low, unit)} to {show_length(piece.high, unit)}",
            "text",
        )
        for piece in gauges.pieces
    )
    wall = (Row("wall gauge reaches", gauges.wall.depth),) if gauges.wall else ()
    unguided = gauges.unguided
    told = (
        (
            f"Inside, heights {show_length(unguided[0], unit)} to {show_length(unguided[1], unit)} are reached by no "
            "gauge: go by callipers there.",
        )
        if unguided
        else ()
    )
    return Section(
        "Profile gauges",
        (
            *left,
            Row("fit, added to each edge", gauges.fit),
            Row("plate thickness", gauges.plate),
            Row("faceplate's face under the foot", -gauges.faceplate),
            *pieces,
            *wall,
        ),
        (
            "Lathe stopped and rest away whenever a gauge is held to the work.",
            "A gauge shows shape, not size: diameters come first, by gap gauges and callipers.",
            *told,
        ),
    )


def _diameters(plan: VesselPlan) -> Section:
    unit = plan.job.unit
    rows = [
        Row(
            f"{station.name}, at height {show_length(station.height, unit)}",
            f"Ø {show_length(2 * station.radius, unit)} finished, "
            f"{show_length(station.height - plan.gauges.faceplate, unit)} over the faceplate",
            "text",
        )
        for station in sorted(plan.gauges.stations, key=lambda station: station.height)
    ]
    return Section("Stations", tuple(rows))


def reversing_section(plan: VesselPlan) -> Section:
    """How the mouth is held."""
    plug = plan.reversing.plug
    if plug is None:
        return Section("Holding by the mouth: none, the foot by hand", (), BY_HAND)
    return Section(
        "Holding by the mouth, foot outward",
        (
            Row("held by", HELD["stands" if plug.way == "bolt" and plug.stands else plug.way], "text"),
            Row("touches the inside from height", plug.low),
            Row("to height", plug.high),
            Row("side off the axis", degrees(plug.slope), "angle"),
            *_taper(plug),
            Row("flange across", 2 * plug.flange),
            Row("discs of the flange", plug.back_layers, "count"),
            Row("discs of the plug", plug.front_layers, "count"),
            *_bolt(plug),
            _push(plan, plug),
            Row("the wood is pressed with", f"{plug.normal_force:.2f} × the {_drawn(plug)}", "text"),
            *_spread(plan, plug),
            Row("comes off", "it may stick: tap it off" if plug.sticks else "freely", "text"),
            *(
                (Row("recess for the tailstock's point, across", plug.centre_recess),)
                if plug.centre_recess
                else ()
            ),
        ),
        (*_held_cautions(plug), *told("lathe.manual")),
    )


def _held_cautions(plug: MouthPlug) -> Iterator[str]:
    """Those that apply: a bolt leaves no room for the tailstock, and presses open only what it spreads."""
    tailstock = "Tailstock up as long as it fits; lowest" if plug.bolt is None else "Lowest"
    yield f"{tailstock} speed, light cuts; stop if anything creeps or sounds dull."
    yield (
        "Hand-tight only: a mouth that is pressed open splits along its joints."
        if plug.spread
        else "Hand-tight only: what is drawn too hard cracks the floor under its washer."
    )


def _push(plan: VesselPlan, plug: MouthPlug) -> Row:
    """The least with which it holds; a bolt's as the torque of its nut too."""
    unit, least = plan.job.unit, 10.0 * ceil(plug.least_push / 10)
    tool = f"the tool pushes with {force_text(TOOL_FORCE, unit)}"
    if plug.bolt is None:
        return Row("push with the tailstock, at least", f"{force_text(least, unit)}; {tool}", "text")
    torque = torque_text(least, bolt_diameter(plug.bolt.thread), unit)
    return Row(
        "draw the bolt, at least", f"{force_text(least, unit)}, its nut turned with {torque}; {tool}", "text"
    )


def _drawn(plug: MouthPlug) -> str:
    return "push" if plug.bolt is None else "bolt's pull"


def _spread(plan: VesselPlan, plug: MouthPlug) -> tuple[Row, ...]:
    """How the mouth is pressed open, where it is."""
    if not plug.spread:
        return ()
    unit = plan.job.unit
    pulls = f"{stress_text(plug.hoop, unit)}; allowed, a quarter of what breaks: {stress_text(plug.hoop_allowed, unit)}"
    return (
        Row("the mouth is spread with", f"{plug.spread:.2f} × the {_drawn(plug)}", "text"),
        Row("pull on the joints round the mouth", pulls, "text"),
    )


def _taper(plug: MouthPlug) -> tuple[Row, ...]:
    if plug.way != "taper":
        return ()
    return (
        Row("jams at a diameter of", plug.jam_diameter),
        Row("how far the mouth stretches when fully seated", plug.stretch),
    )


def _bolt(plug: MouthPlug) -> tuple[Row, ...]:
    if plug.bolt is None:
        return ()
    return (
        Row("bolt", f"{bolt_text(plug.bolt.thread, plug.bolt.length)} or longer", "text"),
        Row("washer", plug.bolt.washer),
    )
