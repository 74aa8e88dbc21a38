"""The vessel, its rings and their joints: facts and tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.asked.woods import SPECIES
from jigs.plans.vessel import VesselPlan
from jigs.stages.stack.plan import HeightsChoice, Joint, Layer
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.model import Column, Row, Table, listed, tabled

LIVELIEST = "the wood that moves most, for it is not known here"
SEEN = 0.01  # mm, of tops that were tried as one, worth telling


def facts(plan: VesselPlan) -> tuple[Quantity, ...]:
    """The job in short; first of all how a drawing was read."""
    section, stack, word = plan.section, plan.stack, plan.job.called
    wall, height = plan.wall
    return (
        *_drawn(plan),
        ruled("height", "Height", section.height),
        ruled("foot", f"{word.foot.capitalize()}, across", 2 * section.foot_radius),
        ruled("widest", "Widest, across", 2 * section.outer.radii(0.0, section.height)[1]),
        ruled("mouth", f"{word.mouth.capitalize()}, across", 2 * section.mouth_radius),
        calliper("wall", "Thinnest wall", wall),
        ruled("wall.height", "It is at the height", height),
        *(
            ()
            if section.through
            else (
                calliper("floor", f"{word.floor.capitalize()}, thick in the middle", section.floor_thickness),
            )
        ),
        Quantity("rings", "Rings", len(stack.layers), "count"),
        Quantity("pieces", _segments(stack.layers), sum(one.ring.segments for one in stack.layers), "count"),
        ruled("swing", "Swing over the bed, at least", plan.least_swing, bound="least"),
        ruled("length", "Faceplate to tailstock's point, at least", plan.least_length, bound="least"),
    )


def _segments(layers: Sequence[Layer]) -> str:
    staved = any(layer.kind == "staves" for layer in layers)
    return "Segments and staves in all" if staved else "Segments in all"


def _drawn(plan: VesselPlan) -> Iterator[Quantity]:
    if told := plan.job.outside.said:
        yield Quantity("drawn", "As drawn", told[0], "text")


def _read(plan: VesselPlan) -> Iterator[Quantity]:
    """How else a drawing was understood: its layer, its unit, its curves."""
    told = (*plan.job.outside.said[1:], *(plan.job.inside.said if plan.job.inside else ()))
    for number, said in enumerate(told, 1):
        yield Quantity(f"read-{number}", "How its drawing was read", said, "text")


def tables(plan: VesselPlan) -> Sequence[Table]:
    """The finished work, every ring from the foot up, every joint, the stations."""
    word, layers = plan.job.called, plan.stack.layers
    rings = tabled("rings", f"Rings, from the {word.foot} up", (_ring(plan, layer) for layer in layers))
    joints = tabled("joints", "Joints between rings", map(_joint, plan.stack.joints))
    return (_finished(plan), *rings, *joints, *_floating(plan), *_held(plan), _stations(plan))


def _finished(plan: VesselPlan) -> Table:
    section, stack, word = plan.section, plan.stack, plan.job.called
    return listed(
        "finished",
        f"The finished {word.whole}",
        (
            ruled("rim", "Rim, across", 2 * section.rim_radius),
            Quantity("wood", "Wood in it", stack.finished_wood, "volume"),
            Quantity("glued", "Wood as glued", stack.wood, "volume"),
            *_holds(plan),
            *_stands(plan),
            calliper("within", "Its arcs keep to the curve given within", plan.within),
            calliper("allowance", "Turning allowance", stack.allowance),
            ruled("bottom", f"Blank begins under the {word.foot}", -stack.bottom),
            ruled("top", f"Blank ends over the {word.foot}", stack.top),
            *_choice(stack.choice),
            *_read(plan),
        ),
    )


def _stands(plan: VesselPlan) -> Iterator[Quantity]:
    if plan.job.lid is None:
        yield ruled("gravity", "Centre of gravity over the foot", plan.stack.centre_height)
        yield Quantity("tips", "Falls over when tilted by", plan.stack.tips_at, "angle")


def _holds(plan: VesselPlan) -> Iterator[Quantity]:
    stack = plan.stack
    if plan.section.through or plan.job.lid:
        return
    if stack.open_from is None:
        what = "Holds dry things, to the brim" if stack.floating else "Holds, to the brim"
        yield Quantity("holds", what, stack.capacity, "volume")
        return
    yield ruled("open-from", "Open between the segments from height", stack.open_from)
    yield Quantity("holds", "Holds, up to there", stack.capacity, "volume")


def _choice(choice: HeightsChoice | None) -> Iterator[Quantity]:
    if choice:
        yield Quantity("choice", "Heights chosen for", choice.chosen, "text")
        yield Quantity("choice.wood", f"That takes {choice.rings} rings", choice.wood, "volume")
        other = f"{choice.other[0].upper()}{choice.other[1:]} would take {choice.other_rings} rings"
        yield Quantity("choice.other", other, choice.other_wood, "volume")
        if choice.within >= SEEN:
            yield calliper(
                "choice.within", "Tops tried as one where nearer to each other than", choice.within
            )


def _ring(plan: VesselPlan, layer: Layer) -> Row:
    ring = layer.ring
    woods = "the layup" if layer.plied(plan.job.layup) else _pattern(layer.species)
    kind = "solid, grain upright" if layer.upright else layer.kind
    return (
        (Column("ring", "Ring", "count"), layer.number),
        (Column("kind", "Made of"), kind),
        (Column("woods", "Woods"), woods),
        (Column("segments", "Pieces", "count"), ring.segments or 1),
        (Column("height", "Height", "calliper"), ring.height),
        (Column("across", "Across", "rule"), 2 * ring.outer),
        (Column("opening", "Opening", "rule"), 2 * ring.core or None),
        (Column("between", "Between pieces", "calliper"), ring.spacer or None),
        (Column("plug", "Bore for a core plug", "calliper"), layer.plug or None),
        (Column("turned", "Turned by", "angle"), layer.turned or None),
    )


def _floating(plan: VesselPlan) -> Iterator[Table]:
    """The base that floats, as it is fitted."""
    disc, wish = plan.stack.floating, plan.job.floating
    if disc is None:
        return
    base = disc.base
    yield listed(
        "floating",
        "Floating base",
        (
            Quantity("species", "Disc of", disc.species, "text"),
            Quantity("grain", "Its grain", "along the axis" if disc.upright else "across", "text"),
            Quantity("moisture", "Moisture as fitted", f"{wish.moisture:g} %", "text"),
            Quantity("driest", "Driest where it will stand", f"{wish.driest:g} %", "text"),
            Quantity("wettest", "Wettest where it will stand", f"{wish.wettest:g} %", "text"),
            *([] if disc.species in SPECIES else [Quantity("moves", "Moves like", LIVELIEST, "text")]),
            calliper("shrinks", "Tongue shrinks, across the grain, by", 2 * base.tongue * base.shrinks),
            calliper("swells", "Tongue swells, across the grain, by", 2 * base.tongue * base.swells),
            ruled("opening", "Openings of rings 1 and 2, across", 2 * base.opening),
            calliper("groove", "Groove, across", 2 * base.groove),
            calliper("depth", "Groove, deep", base.depth),
            calliper("thickness", "Disc, thick", base.thickness),
            calliper("tongue", "Tongue, across", 2 * base.tongue),
            calliper("tongue.thickness", "Tongue, thick", base.tongue_thickness),
            calliper("field", "Field over the tongue, across", 2 * base.field),
            calliper("room", "Room round the tongue as fitted, to either side", base.room),
            calliper("ledge", "Ledge under it", base.ledge),
            calliper("lip", "Lip over it", base.lip),
        ),
    )


def _pattern(names: Sequence[str]) -> str:
    """The woods round a ring, once where they repeat."""
    for length in range(1, len(names)):
        if all(name == names[k % length] for k, name in enumerate(names)):
            return ", ".join(names[:length])
    return ", ".join(names)


def _joint(joint: Joint) -> Row:
    return (
        (Column("lower", "Ring", "count"), joint.lower),
        (Column("upper", "On it", "count"), joint.upper),
        (Column("height", "Height", "rule"), joint.height),
        (Column("across", "Finished diameter", "calliper"), 2 * joint.outer),
        (Column("wall", "Finished glue face", "calliper"), joint.finished),
        (Column("rough", "Glue face before turning", "calliper"), joint.rough),
        (Column("area", "Glue area", "area"), joint.glue_area),
    )


def _held(plan: VesselPlan) -> Iterator[Table]:
    """By its mouth, and what that does to it."""
    plug = plan.reversing.plug
    if plug is None:
        return
    pull = "bolt's pull" if plug.bolt else "push"
    yield listed(
        "held",
        f"Held by the {plan.job.called.mouth}",
        (
            ruled("low", f"Plug touches the inside, least height over the {plan.job.called.foot}", plug.low),
            ruled("high", f"Plug touches the inside, most height over the {plan.job.called.foot}", plug.high),
            Quantity("slope", "Its side is off the axis by", plug.slope, "angle"),
            Quantity(
                "pull",
                f"Least {pull} that holds it against the tool",
                plug.least_push,
                "force",
                bound="least",
            ),
            Quantity("pressed", f"Force on the wood, times the {pull}", plug.normal_force, "ratio"),
            *(
                (
                    Quantity(
                        "spread",
                        f"Force that spreads the {plan.job.called.mouth}, times the {pull}",
                        plug.spread,
                        "ratio",
                    ),
                    Quantity("hoop", "Share of what its joints hold", plug.used, "share"),
                )
                if plug.hoop
                else ()
            ),
            Quantity("off", "Comes off", "tap it off" if plug.sticks else "freely", "text"),
        ),
    )


def _stations(plan: VesselPlan) -> Table:
    rows = tuple(
        (s.name, s.height, s.height - plan.gauges.faceplate, 2 * s.radius)
        for s in sorted((one for one, _ in plan.sizes.finished), key=lambda station: station.height)
    )
    columns = (
        Column("name", "Station"),
        Column("height", f"Height over the {plan.job.called.foot}", "rule"),
        Column("over-faceplate", "Over the faceplate", "rule"),
        Column("across", "Finished diameter", "calliper"),
    )
    return Table("stations", "Stations", columns, rows)
