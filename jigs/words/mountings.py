"""The sequence of mountings and the roughing flats in words and tables, for report and book."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, degrees

from geometry.fasteners import bolt_diameter
from geometry.lathe_holding import TOOL_FORCE
from geometry.mountings import Arc, Hold, Mounting, degrees_of, least_overlap_of
from geometry.roughing import FlatsStep
from geometry.turning import TAIL
from jigs.cautions import told
from jigs.lengths import show_length
from jigs.plan.torus import TorusPlan
from jigs.strength import force_text, torque_text
from jigs.words.sections import Row, Section

TITLES = {
    "A": "Mounting A: on the first board, by the flat",
    "B": "Mounting B: on the retainer, the first board taken off",
    "C": "Mounting C: in the channel, held by braces",
    "D": "Mounting D: in the channel, held by the retainer",
}
ANGLES = "0° rim, 90° the face turned first, 180° hole, 270° the flat that is glued"


def mounting_sections(plan: TorusPlan) -> list[Section]:
    """One section for each mounting, in the order of the work."""
    return [_every(), *(mounting_section(plan, mounting) for mounting in plan.mountings.mountings)]


SPINNING = ("lathe.turn-by-hand", "lathe.speed", "lathe.stand", "lathe.screws")


def _every() -> Section:
    """What holds at each of them, once."""
    return Section("Every mounting, before it spins", (), told(*SPINNING, "lathe.clothes"))


def mounting_section(plan: TorusPlan, mounting: Mounting) -> Section:
    """Board, layers, centring, what is turned, what holds, cautions."""
    rows = {"A": _first, "B": _reversed, "C": _braced, "D": _drawn}[mounting.name](plan)
    cautions = {
        "A": ("Glue cured 24 h; every joint of blank and board tapped and looked at.",),
        "B": (
            *told("lathe.bolt"),
            "Never part the board off: stop short, lathe off, and saw the rest by hand.",
        ),
        "C": told("lathe.braces"),
        "D": ("The retainer is fitted and tight before any brace comes off.", *told("lathe.bolt")),
    }[mounting.name]
    common = (*_turned(mounting), *_holds(mounting), _statics(plan, mounting))
    return Section(TITLES[mounting.name], (*rows, *common), (*cautions, *told("lathe.manual")))


def _statics(plan: TorusPlan, mounting: Mounting) -> Row:
    """What holds against the tool, or the pull that it takes."""
    found = plan.mountings.held[plan.mountings.mountings.index(mounting)]
    unit, tool = plan.job.unit, force_text(TOOL_FORCE, plan.job.unit)
    if not found.pull:
        return Row(
            "glue holds against", f"{force_text(found.strength, unit)}; the tool pushes with {tool}", "text"
        )
    bolt = plan.mountings.brace.bolt if mounting.name == "C" else plan.holding.bolt
    least = 10.0 * ceil(found.least_pull / 10)
    return Row(
        "draw each brace's bolt, at least" if mounting.name == "C" else "draw the bolt, at least",
        f"{force_text(least, unit)}, its nut turned with {torque_text(least, bolt_diameter(bolt), unit)}; the tool "
        f"pushes with {tool}",
        "text",
    )


def _shower(plan: TorusPlan) -> Callable[[float], str]:
    return lambda mm: show_length(mm, plan.job.unit, exact=True)


def span_text(arc: Arc) -> str:
    """Both ends in whole degrees from 0 to 360, and whether it runs over 0."""
    start, end = (round(at) for at in degrees_of(arc))
    return (
        f"{start}° over 0° to {end - 360}°"
        if start < 360 < end
        else f"{start % 360}° to {end - start + start % 360}°"
    )


def _turned(mounting: Mounting) -> tuple[Row, ...]:
    if mounting.turns is None:
        return (Row("turned round the tube", "nothing", "text"),)
    return (Row("turned round the tube", span_text(mounting.turns), "text"),)


def _holds(mounting: Mounting) -> tuple[Row, ...]:
    return tuple(Row(f"held by the {hold.what}", _hold_text(hold), "text") for hold in mounting.holds)


def _hold_text(hold: Hold) -> str:
    wood = "on waste" if hold.on == "waste" else "on what has been finished before"
    return f"{wood}, touches from {span_text(hold.bears)}; keep the tool out of {span_text(hold.covers)}"


def _layers(plan: TorusPlan) -> Row:
    held = plan.holding
    layer = show_length(held.layer_thickness, plan.job.unit)
    return Row("board", f"{held.board_layers} layers of {layer}, {held.bolt} through the middle", "text")


def _first(plan: TorusPlan) -> tuple[Row, ...]:
    m, first, mm, past = plan.mountings, plan.mountings.first, _shower(plan), degrees(TAIL)
    return (
        Row("angles round the tube", ANGLES, "text"),
        _layers(plan),
        Row("sanded off the flat, for the glue", m.sanded),
        Row("flat then, parallel to the ring's plane", m.waste_flat),
        Row("tube's centre over the board's face (measure it)", first.centre_height),
        Row("centring, inside", f"inner flats over a spigot {mm(2 * first.spigot_radius)} across", "text"),
        Row("spigot stands up", first.spigot_height),
        Row("centring, outside", f"outer corners on a circle {mm(2 * first.scribed)} across", "text"),
        Row("turned", f"rim, face, hole, the corners, then both flanks to {past:.0f}° past the equator", "text"),
        Row("waste below, turned straight back to the board, to a radius of", first.turned_back),
    )  # fmt: skip


def _reversed(plan: TorusPlan) -> tuple[Row, ...]:
    held, short = plan.holding, _shower(plan)(plan.mountings.first.saw_short)
    return (
        Row(
            "board",
            f"the retainer, its rim against the faceplate; {held.bolt} through the first board",
            "text",
        ),
        Row("centring", "the finished hole on the retainer's rim", "text"),
        Row("turned", f"the first board's rim, away down to {short} from the flat", "text"),
        Row("by hand", f"the last {short} sawn, lathe off; the flat stays, for the braces", "text"),
        Row("forces", _forces(plan), "text"),
    )


def _braced(plan: TorusPlan) -> tuple[Row, ...]:
    held, brace, mm = plan.holding, plan.mountings.brace, _shower(plan)
    return (
        _layers(plan),
        Row("tube's centre over the board's face", held.channel.centre_height),
        Row("centring", f"the finished side in its channel on R {mm(held.channel.major)}", "text"),
        Row("braces", f"{held.braces}, {brace.bolt} on a circle {mm(2 * brace.bolt_radius)} across", "text"),
        Row("waste flat over the board", brace.height),
        Row("block under each brace", _block(plan), "text"),
        Row("finger on the waste flat's outer half", brace.bearing),
        Row("tool room before the fingers", plan.mountings.setting.tool_room),
        Row("turned", "the hole side up to the fingers; that finishes the retainer's band", "text"),
    )


def _block(plan: TorusPlan) -> str:
    brace, mm = plan.mountings.brace, _shower(plan)
    layers = f"{brace.layers} layers of {show_length(brace.thickness, plan.job.unit)} and "
    return f"{layers if brace.layers else ''}a printed pad of {mm(brace.pad)}"


def _drawn(plan: TorusPlan) -> tuple[Row, ...]:
    held = plan.holding
    overlap = degrees(least_overlap_of(plan.mountings.mountings))
    return (
        Row("board", "the same, not moved: retainer in, bolt hand-tight, then the braces off", "text"),
        Row("retainer touches above the tube's centre from", held.retainer.band_low),
        Row("to", held.retainer.band_high),
        Row("tool room before the retainer", plan.mountings.setting.tool_room),
        Row("turned", "the rest, from the retainer over the waste flat to the rim; sanded", "text"),
        Row("least overlap between mountings", overlap, "angle"),
        Row("forces", _forces(plan), "text"),
    )


def _forces(plan: TorusPlan) -> str:
    held = plan.holding
    after = "and it sticks when slackened: tap it out" if held.sticks else "and it comes free when slackened"
    return (
        f"for each 100 of the bolt's pull the rim presses with {100 * held.normal_force:.0f} and spreads the hole "
        f"with {100 * held.spread:.0f}: hand-tight is enough, more can open a joint; {after}"
    )


def flats_section(plan: TorusPlan) -> Section:
    """Roughing by flats, one row for each number of each step."""
    rows = [row for step in plan.mountings.flats for row in _step_rows(step)]
    stage = plan.gauges.stages[0]
    circle = Row(f"circle inside the flats, {stage.label.lower()}", stage.edge_radius - plan.gauges.fit)
    none = Row("steps", "none: the blank's corners are low enough to turn off as they are", "text")
    return Section(
        "Roughing by flats",
        (circle, *(rows or [none])),
        ("Rim, face and hole to their sizes first. Lathe stopped and rest away for every mark and gauge.",),
    )


def _step_rows(step: FlatsStep) -> tuple[Row, ...]:
    name = f"{step.sides} to {2 * step.sides} sides"
    return (
        Row(f"{name}: half angle at a corner", degrees(step.half_angle), "angle"),
        Row(f"{name}: along each side from the corner", step.along),
        Row(f"{name}: depth at the corner", step.depth),
        Row(f"{name}: new flat", step.new_flat),
        Row(f"{name}: left above the curve", step.left),
    )
