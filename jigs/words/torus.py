"""A torus in words and tables, in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians

from geometry.draw_rod import SLIP
from geometry.fasteners import hole_standard
from geometry.holding import Holding
from geometry.sawing import included_angle_error
from geometry.sled import JAW_SCREW, SCREW_LENGTH
from geometry.stiffness import ALLOWED as BENDS
from geometry.wedge_peg import PEG
from jigs.cautions import SHORT
from jigs.families.labels import SAW_NOTES
from jigs.lengths import bolt_text, show_length
from jigs.plan.torus import TorusPlan
from jigs.strength import force_text
from jigs.words.glue_up import glue_sections
from jigs.words.mountings import flats_section, mounting_sections
from jigs.words.saws import saw_sections
from jigs.words.sections import Row, Section
from jigs.words.speed import speed_section

HELD_IN = ("held in cut 1 against", "held in cut 2 against", "held in cut 2 on the end wedge against")


def torus_sections(plan: TorusPlan) -> list[Section]:
    """Everything a turner checks before buying wood, in the order of the work."""
    return [
        _form(plan),
        _blank(plan),
        _segments(plan),
        *saw_sections(plan),
        _wedge_rings(plan),
        _held(plan),
        *glue_sections(plan),
        _gauges(plan),
        flats_section(plan),
        _holding(plan),
        *mounting_sections(plan),
        speed_section(plan.rim_speed),
    ]


def _form(plan: TorusPlan) -> Section:
    form = plan.job.form
    return Section(
        "Finished form",
        (
            Row("outer diameter", form.outer_diameter),
            Row("hole diameter", form.hole_diameter),
            Row("tube diameter", 2 * form.tube_radius),
            Row("major radius", form.major_radius),
            Row("volume, solid", plan.torus_volume, "volume"),
            Row("surface", plan.torus_surface, "area"),
        ),
    )


def _blank(plan: TorusPlan) -> Section:
    blank = plan.blank
    return Section(
        "Blank",
        (
            Row("wedge rings", blank.wedge_rings, "count"),
            Row("segments in a ring", blank.segments, "count"),
            Row("segments in all", plan.segments_total, "count"),
            Row("ring across flats", 2 * blank.apothem),
            Row("core opening", 2 * blank.core_apothem),
            Row("radius of the rings' centres", blank.centre),
            Row("thick edge, as glued", blank.thick_edge),
            Row("thin edge, as glued", blank.thin_edge),
            Row("turning allowance", plan.job.form.turning_allowance),
            Row("least wood beyond it", max(0.0, min(plan.margins))),
            Row("wall left at the core", plan.wall),
            Row("swings", 2 * blank.swing_radius),
            Row("volume", blank.volume, "volume"),
        ),
    )


def _segments(plan: TorusPlan) -> Section:
    cut, n = plan.segment, plan.blank.segments
    return Section(
        "Cutting segments",
        (
            Row("blade tilt (mitre angle)", degrees(cut.tilt), "angle"),
            Row("outer edge", cut.outer_edge),
            Row("inner edge", cut.inner_edge),
            Row("depth (strip thickness)", cut.depth),
            Row("strip width", cut.length),
            Row("blade above the table, along it", plan.cutting.carrier.blade_height),
            Row("strip for each segment", cut.pitch),
            Row(f"least strip for one ring of {n}", cut.strip_length(n)),
        ),
        (
            "Strip flat, fence square, turned over between cuts; stop on the kept side, swung clear before the cut.",
            f"Pieces under {SHORT[plan.job.unit]} are never held by hand: hold-down or jaws.",
            *SAW_NOTES,
        ),
    )


def _wedge_rings(plan: TorusPlan) -> Section:
    cut, sled = plan.ring_cut, plan.sled
    gap = included_angle_error(plan.blank, radians(0.1))
    return Section(
        "Cutting wedge rings",
        (
            Row("face angle (fence to blade)", degrees(cut.half_wedge), "angle"),
            Row("ring thickness before cutting", cut.ring_thickness),
            Row("clean-up on each face", plan.clean_up),
            Row("thick edge as cut", cut.thick_edge),
            Row("thin edge as cut", cut.thin_edge),
            Row("stop from the apex, along the fence", cut.stop),
            Row("stop to blade, square to the fence", sled.stop_check),
            Row("wedge's thin end, at the stop", sled.thin_end(cut.wedge_at_stop)),
            Row("blade height above the table", sled.saw_height),
            Row(f"check: {plan.check.rings} rings make", degrees(plan.check.angle), "angle"),
            Row("gap at the rim if every ring is 0.1° out", gap),
        ),
        ("Test cut in scrap first; check with the check corner before good wood.", *SAW_NOTES),
    )


def _held(plan: TorusPlan) -> Section:
    """What holds a wedge ring to its sled, and against how much."""
    rod = plan.sled.rod
    hub = (Row("cheeks, across", rod.cheek), Row("hub, across", rod.hub)) if rod.hubbed else ()
    return Section(
        "What holds a wedge ring",
        (
            Row("draw rod", f"{rod.bolt} x {rod.length:g}", "text"),
            Row("plug's rubber, across", rod.core - SLIP),
            Row("plug's rubber, length", rod.rubber),
            *hub,
            Row("rod's tip under the ring's uncut face, at least", rod.below_face),
            Row("knob behind the fence, at most across", plan.sled.knob),
            Row("bore through the wedge", rod.wedge_hole),
            *_peg_rows(plan),
            Row("jaw's screw", f"{JAW_SCREW} x {SCREW_LENGTH:g}", "text"),
            *(
                Row(what, _against(plan, holding), "text")
                for what, holding in zip(HELD_IN, plan.rings_held, strict=False)
            ),
            *_strained(plan),
        ),
        (
            "The feed pushes the ring to the stop, and off the fence: only the rod holds it there. All outer faces of "
            "the ring stand square to the fence, so nothing outside can press it on. Never cut without the rod.",
            "The ring squeezes the wedge towards the apex: only its peg in the fence holds it there. Press the wedge "
            "onto its peg, thin end at the stop, before the second cut; never cut on it without the peg.",
        ),
    )


def _strained(plan: TorusPlan) -> Iterator[Row]:
    """How far fence, rod, jaw and bridge bend, or how near they come to what they take."""
    strained = plan.sled_strained
    yield Row(
        f"fence bends back under jaw and cut ({show_length(BENDS, plan.job.unit)} allowed)", strained.fence
    )
    yield Row("share of yield: draw rod, its knob turned hard", f"{strained.rod:.0%}", "text")
    yield Row("share of strength: jaw under its screw", f"{strained.jaw:.0%}", "text")
    if strained.bridge is not None:
        yield Row("share of strength: bridge, leant on", f"{strained.bridge:.0%}", "text")


def _peg_rows(plan: TorusPlan) -> tuple[Row, ...]:
    """The dowel in the wedge, and its place in wedge and fence."""
    peg = plan.sled.peg
    if peg is None:
        return ()
    return (
        Row("wedge's peg, hardwood dowel, across", PEG),
        Row("wedge's peg from the stop", peg.to_stop),
        Row("wedge's peg above the base", peg.height),
        Row("wedge's peg, bore in the wedge, deep", peg.depth()),
    )


def _against(plan: TorusPlan, holding: Holding) -> str:
    held, pushed = (force_text(newtons, plan.job.unit) for newtons in (holding.strength, holding.force))
    return f"{held}; the saw pushes with {pushed}"


def _gauges(plan: TorusPlan) -> Section:
    gauges = plan.gauges
    stages = tuple(Row(f"edge radius, {stage.label.lower()}", stage.edge_radius) for stage in gauges.stages)
    return Section(
        "Gauges",
        (*stages, Row("fit in each radius", gauges.fit), Row("plate thickness", gauges.plate)),
        (
            "Lathe stopped and rest away whenever a gauge is held to the work.",
            "A gauge shows shape, not size: rim, hole and face come first.",
        ),
    )


def _holding(plan: TorusPlan) -> Section:
    held = plan.holding
    return Section(
        "Support board and retainer",
        (
            Row("channel radius", held.channel.radius),
            Row("channel depth", held.channel.depth),
            Row("channel width at the face", held.channel.width),
            Row("board diameter", held.board_diameter),
            Row("layers in a board", held.board_layers, "count"),
            Row("braces", held.braces, "count"),
            Row("brace bolt circle", held.brace_circle),
            Row(f"brace holes ({held.brace_bolt}, {hole_standard(held.brace_bolt)})", held.brace_hole),
            Row("clearance round the retainer's neck", held.retainer.neck_clearance),
            Row("retainer neck diameter", 2 * held.retainer.neck_radius),
            Row("retainer rim diameter", 2 * held.retainer.top_radius),
            Row("retainer height", held.retainer.height),
            Row("layers in the retainer", held.retainer_layers, "count"),
            Row("centre bolt", f"{bolt_text(held.bolt, held.bolt_length)} at least", "text"),
            Row(f"bolt hole ({hole_standard(held.bolt)})", held.bolt_hole),
            Row("washer", held.washer),
            Row("the rim is pressed with", f"{held.normal_force:.2f} × the bolt's pull", "text"),
            Row("the hole is spread with", f"{held.spread:.2f} × the bolt's pull", "text"),
            Row("retainer's neck passes through the hole", "yes", "text"),
            Row("retainer holds", "yes" + (", and may stick: tap it out" if held.sticks else ""), "text"),
        ),
        (
            "Hand-tight only; retainer tight before the braces come off; braces checked again after five minutes.",
        ),
    )
