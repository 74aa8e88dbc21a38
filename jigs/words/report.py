"""The plan in words and tables: one list of sections for people and for scripts."""

from __future__ import annotations

from collections.abc import Iterable
from math import degrees, radians

from geometry.sawing import included_angle_error
from jigs.families.labels import SAW_NOTES
from jigs.findings import Finding
from jigs.job import Job, Unit
from jigs.keys import KEYS, Key
from jigs.lengths import show_length
from jigs.part import Part
from jigs.plan import Plan
from jigs.tables import table
from jigs.words.glue_up import glue_sections
from jigs.words.mountings import flats_section, mounting_sections
from jigs.words.saws import saw_sections
from jigs.words.sections import Row, Section


def sections(plan: Plan) -> list[Section]:
    """Everything a turner checks before buying wood, in the order of the work."""
    return [
        _form(plan),
        _blank(plan),
        _segments(plan),
        *saw_sections(plan),
        _wedge_rings(plan),
        *glue_sections(plan),
        _gauges(plan),
        flats_section(plan),
        _holding(plan),
        *mounting_sections(plan),
        _lathe(plan),
        _values(plan),
    ]


def _form(plan: Plan) -> Section:
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


def _blank(plan: Plan) -> Section:
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
            Row("thick edge", blank.thick_edge),
            Row("thin edge", blank.thin_edge),
            Row("turning allowance", plan.job.form.turning_allowance),
            Row("least wood beyond it", max(0.0, min(plan.margins))),
            Row("wall left at the core", plan.wall),
            Row("swings", 2 * blank.swing_radius),
            Row("volume", blank.volume, "volume"),
        ),
    )


def _segments(plan: Plan) -> Section:
    cut, n = plan.segment, plan.blank.segments
    return Section(
        "Cutting segments",
        (
            Row("blade tilt (mitre angle)", degrees(cut.tilt), "angle"),
            Row("outer edge", cut.outer_edge),
            Row("inner edge", cut.inner_edge),
            Row("depth (strip thickness)", cut.depth),
            Row("strip width", cut.length),
            Row("blade height above the table", cut.blade_height),
            Row("strip for each segment", cut.pitch),
            Row(f"least strip for one ring of {n}", cut.strip_length(n)),
        ),
        (
            "Strip flat, fence square, turned over between cuts; stop on the kept side, swung clear before the cut.",
            "Pieces under 300 mm are never held by hand: hold-down or jaws.",
            *SAW_NOTES,
        ),
    )


def _wedge_rings(plan: Plan) -> Section:
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
            Row("wedge at the stop", cut.wedge_at_stop),
            Row("blade height above the table", sled.saw_height),
            Row(f"check: {plan.check.rings} rings make", degrees(plan.check.angle), "angle"),
            Row("gap at the rim if every ring is 0.1° out", gap),
        ),
        ("Test cut in scrap first; check with the check corner before good wood.", *SAW_NOTES),
    )


def _gauges(plan: Plan) -> Section:
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


def _holding(plan: Plan) -> Section:
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
            Row(f"brace holes ({held.brace_bolt}, ISO 273 medium)", held.brace_hole),
            Row("clearance round the retainer's neck", held.retainer.neck_clearance),
            Row("retainer neck diameter", 2 * held.retainer.neck_radius),
            Row("retainer rim diameter", 2 * held.retainer.top_radius),
            Row("retainer height", held.retainer.height),
            Row("layers in the retainer", held.retainer_layers, "count"),
            Row("centre bolt", f"{held.bolt} x {held.bolt_length:g} at least", "text"),
            Row("bolt hole (ISO 273 medium)", held.bolt_hole),
            Row("washer", held.washer),
            Row("of the pull, pressing on the rim", held.normal_force, "ratio"),
            Row("of the pull, spreading the hole", held.spread, "ratio"),
            Row("goes in", "yes", "text"),
            Row("holds", "yes" + (", and may stick: tap it out" if held.sticks else ""), "text"),
        ),
        (
            "Hand-tight only; retainer tight before the braces come off; braces checked again after five minutes.",
        ),
    )


def _lathe(plan: Plan) -> Section:
    slow, fast = plan.rim_speed
    return Section(
        "Speed",
        (Row("usual range at the rim", f"{slow} to {fast} rpm, slowest first", "text"),),
        (
            "The lower of this and the lathe maker's rating; common practice, not a safety limit.",
            "Face shield, dust mask, out of the plane of the work; one full turn by hand first.",
            "The machine's manual, local rules and trained practice come first.",
        ),
    )


def _values(plan: Plan) -> Section:
    """Every value of the job and workshop files that was used, and whether it is a default."""
    job = plan.job
    owners = {"form": job.form, "gauges": job.gauges, **vars(job.workshop)}
    rows = [
        Row(key.path, _value(key, value, job.unit) + _origin(key, job), "text")
        for key in KEYS
        if (value := getattr(owners.get(key.table), key.name, None)) is not None
    ]
    return Section("Values used", tuple(rows))


def _origin(key: Key, job: Job) -> str:
    if key.path in job.places:
        return ""
    return "  (follows)" if key.default is None else "  (default)"


def _value(key: Key, value: object, unit: Unit) -> str:
    if isinstance(value, tuple):
        return ", ".join(show_length(item, unit) for item in value)
    return show_length(float(str(value)), unit) if key.kind == "length" else str(value)


def shown(row: Row, unit: Unit) -> str:
    """A row's value as a person reads it."""
    if isinstance(row.value, str):
        return row.value
    match row.kind:
        case "length":
            return show_length(row.value, unit)
        case "angle":
            return f"{row.value:.3f}°"
        case "volume":
            return f"{row.value / 1e6:.3f} l" if unit == "mm" else f"{row.value / 25.4**3:.1f} in³"
        case "area":
            return f"{row.value / 1e2:.0f} cm²" if unit == "mm" else f"{row.value / 25.4**2:.1f} in²"
        case "ratio":
            return f"{row.value:.2f}"
        case _:
            return str(row.value)


def report_text(plan: Plan, parts: Iterable[Part], notes: Iterable[Finding]) -> str:
    """All sections as tables, the jigs, then the notes and the verdict."""
    unit = plan.job.unit
    blocks = [_section_text(section, unit) for section in sections(plan)]
    told = [f"note: {note}" for note in (*plan.notes, *notes)]
    verdict = f"{plan.job.title}: it can be made."
    return "\n\n".join([*blocks, "Jigs\n" + rack_text(parts, unit), "\n".join([*told, verdict])])


def _section_text(section: Section, unit: Unit) -> str:
    rows = [(row.name, shown(row, unit)) for row in section.rows]
    cautions = [f"  ! {caution}" for caution in section.cautions]
    return "\n".join([section.title, *table(rows), *cautions])


def report_json(plan: Plan, parts: Iterable[Part], notes: Iterable[Finding]) -> dict[str, object]:
    """The same for scripts: mm, degrees, mm3."""
    return {
        "job": plan.job.name,
        "verdict": "can be made",
        "sections": [
            {
                "title": section.title,
                "rows": [{"name": row.name, "value": row.value, "kind": row.kind} for row in section.rows],
                "cautions": list(section.cautions),
            }
            for section in sections(plan)
        ],
        "jigs": [{"part": p.name, "quantity": p.quantity, "process": p.process} for p in parts],
        "notes": [str(note) for note in (*plan.notes, *notes)],
    }


def rack_text(parts: Iterable[Part], unit: Unit) -> str:
    """The jigs as a table: name, how many, how made, size, what for."""
    rows = [("jig", "pieces", "made by", "size", "for")]
    for part in parts:
        x0, y0, x1, y1 = part.outline.bounds
        size = f"{show_length(x1 - x0, unit)} x {show_length(y1 - y0, unit)}"
        rows.append((part.name, str(part.quantity), part.process, size, part.purpose))
    return "\n".join(table(rows))
