"""The finished vessel and its rings in words and tables."""

from __future__ import annotations

from math import degrees, isnan

from jigs.job import Unit
from jigs.lengths import fine_length, show_length
from jigs.plan.vessel import VesselPlan
from jigs.plan.vessel.stack import HeightsChoice, Joint, Layer, StackPlan
from jigs.wood import SPECIES
from jigs.words.amounts import area_text, volume_text, weight_text
from jigs.words.sections import Row, Section

SEEN = 0.01  # mm, of tops that were tried as one, worth telling


def form_section(plan: VesselPlan) -> Section:
    """Sizes, volume, weight, balance."""
    section, stack, unit = plan.section, plan.stack, plan.job.unit
    wall, height = plan.wall
    drawn, *told = plan.job.outside.said or ("",)
    said = (*told, *(plan.job.inside.said if plan.job.inside else ()))
    weights = tuple(
        Row(f"weight of {name}", "not known" if isnan(grams) else weight_text(grams, unit), "text")
        for name, _, grams in stack.weights
    )
    return Section(
        "Finished vessel",
        (
            *((Row("as drawn", drawn, "text"),) if drawn else ()),
            Row("height", section.height),
            Row("foot, across", 2 * section.foot_radius),
            Row("widest, across", 2 * section.outer.radii(0.0, section.height)[1]),
            Row("rim, across", 2 * section.rim_radius),
            Row("mouth, across", 2 * section.mouth_radius),
            Row(f"thinnest wall, at height {show_length(height, unit)}", wall),
            Row("floor", section.floor_thickness),
            Row("volume of wood", stack.finished_wood, "volume"),
            _holds(stack, unit),
            *weights,
            Row("centre of gravity over the foot", stack.centre_height),
            Row("falls over when tilted by", degrees(stack.tips_at), "angle"),
            Row(
                "its arcs keep to the curve given",
                f"within {fine_length(plan.within, unit)}" if plan.within else "exactly",
                "text",
            ),
        ),
        said,
    )


def _holds(stack: StackPlan, unit: Unit) -> Row:
    if stack.open_from is None:
        what = "holds dry things" if stack.floating else "holds"
        return Row(f"{what}, to the brim", stack.capacity, "volume")
    gaps = show_length(stack.open_from, unit)
    if not stack.capacity:
        return Row("holds", f"nothing: open between the segments from height {gaps}", "text")
    return Row(f"holds, up to the lowest gaps at height {gaps}", stack.capacity, "volume")


def _searched(choice: HeightsChoice, unit: Unit) -> str:
    """What the search left out, of so many boards that it had to."""
    if choice.within < SEEN:
        return ""
    near = show_length(choice.within, unit)
    return f"; of so many boards tops within {near} of one another were tried as one, and a little less wood may do"


def stack_section(plan: VesselPlan) -> Section:
    """Every ring, from the foot up."""
    stack, unit = plan.stack, plan.job.unit
    choice = stack.choice
    chosen = (
        Row(
            "heights chosen",
            f"{choice.chosen}: {choice.rings} rings of {volume_text(choice.wood, unit)}; {choice.other} would be "
            f"{choice.other_rings} rings of {volume_text(choice.other_wood, unit)}{_searched(choice, unit)}",
            "text",
        ),
    ) if choice else ()  # fmt: skip
    return Section(
        "Rings, from the foot up",
        (
            *(Row(f"ring {layer.number}", _ring_words(plan, layer), "text") for layer in stack.layers),
            *chosen,
            Row("segments in all", sum(la.ring.segments for la in stack.layers if la.cut), "count"),
            Row("turning allowance", stack.allowance),
            Row("the blank stands from, over the foot", stack.bottom),
            Row("to", stack.top),
            Row("swings", 2 * stack.largest_radius),
            Row("wood as glued", stack.wood, "volume"),
            Row("turned away", stack.wood - stack.finished_wood, "volume"),
        ),
        (
            "Heights are as glued: flatten each ring to them, and measure the stack as it grows.",
            f"The lowest ring is faced by {show_length(stack.allowance, unit)} at the foot.",
        ),
    )


def floating_sections(plan: VesselPlan) -> list[Section]:
    """The base that floats, as it is fitted; none where it does not."""
    disc, wish, unit = plan.stack.floating, plan.job.floating, plan.job.unit
    if disc is None:
        return []
    base = disc.base
    moves = f"at {wish.moisture:g} % moisture as fitted, {wish.driest:g} to {wish.wettest:g} % where it will stand"
    shrinks, swells = (show_length(2 * base.tongue * share, unit) for share in (base.shrinks, base.swells))
    known = "" if disc.species in SPECIES else f"; {disc.species} is taken as the liveliest wood known here"
    return [
        Section(
            "Floating base",
            (
                Row(
                    "disc",
                    f"{disc.species}, its grain {'along the axis' if disc.upright else 'across'}",
                    "text",
                ),
                Row("moisture", moves, "text"),
                Row("shrinks and swells, across the grain", f"by {shrinks} and {swells}{known}", "text"),
                Row("groove, across", 2 * base.groove),
                Row("groove, deep", base.depth),
                Row("openings of rings 1 and 2, across", 2 * base.opening),
                Row("disc, thick", base.thickness),
                Row("tongue, across", 2 * base.tongue),
                Row("tongue, thick", base.tongue_thickness),
                Row("field over the tongue, across", 2 * base.field),
                Row("room round the tongue as fitted, to either side", base.room),
                Row("ledge under it", base.ledge),
                Row("lip over it", base.lip),
            ),
            (
                "Measure the disc's moisture before you turn it; another than stated makes another groove.",
                "Glue never touches the disc. It goes in before ring 2 is glued on, finished all over.",
                "While you hollow, keep a round of card taped flat over the disc and stop at the lip's edge.",
                "It rattles: that is its room.",
                "It is not tight: for dry things only.",
            ),
        )
    ]


def _ring_words(plan: VesselPlan, layer: Layer) -> str:
    unit, ring = plan.job.unit, layer.ring
    woods = "the layup" if layer.plied(plan.job.layup) else _pattern(layer)
    size = f"{show_length(ring.height, unit)} high, {show_length(2 * ring.outer, unit)} across"
    if layer.upright:
        return f"one solid piece of {woods}, its grain along the axis, {size}"
    if layer.kind == "disc":
        return f"disc of {woods}, {size}"
    turned = f", turned by {degrees(layer.turned):.4g}°" if layer.turned else ""
    if layer.kind == "staves" and (band := plan.stack.staves):
        return (
            f"{band.count} staves of {woods}, {size}, {show_length(band.thickness, unit)} thick, leaning "
            f"{degrees(band.lean):.2f}°{turned}"
        )
    between = f", {show_length(ring.spacer, unit)} between them" if ring.spacer else ""
    opening = f", opening {show_length(2 * ring.core, unit)}" if ring.core else ", to the middle"
    if plan.stack.floating and layer.number in (1, 2):
        opening += (
            f" bored to {show_length(2 * plan.stack.floating.base.opening, unit)} for the floating base"
        )
    if layer.plug:
        opening += f" bored to {show_length(layer.plug, unit)} for a core plug"
    kind = "open segments" if layer.kind == "open" else "segments"
    return f"{ring.segments} {kind} of {woods}, {size}{opening}{between}{turned}"


def _pattern(layer: Layer) -> str:
    """The woods round a ring, once where they repeat."""
    names = layer.species
    for length in range(1, len(names)):
        if names == tuple(names[k % length] for k in range(len(names))):
            return ", ".join(names[:length])
    return ", ".join(names)


def joints_section(plan: VesselPlan) -> Section:
    """What is glued at each joint."""
    stack = plan.stack
    least = min(stack.joints, key=lambda joint: joint.finished, default=None)
    rows = [Row(f"joint {j.lower} to {j.upper}", _joint_words(plan, j), "text") for j in stack.joints]
    if least is not None:
        rows += [
            Row("least glue face, finished", least.finished),
            Row("least glue face, as glued", min(joint.rough for joint in stack.joints)),
            Row("most overhang of a ring", max(joint.overhang for joint in stack.joints)),
        ]
    return Section("Joints between rings", tuple(rows))


def _joint_words(plan: VesselPlan, joint: Joint) -> str:
    unit = plan.job.unit
    wall = "floor" if not joint.inner else f"wall {show_length(joint.finished, unit)}"
    return (
        f"height {show_length(joint.height, unit)}, Ø {show_length(2 * joint.outer, unit)} finished, {wall}, "
        f"glue face before turning: {show_length(joint.rough, unit)} wide, {area_text(joint.glue_area, unit)}"
    )
