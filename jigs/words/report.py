"""The plan in words and tables: one list of sections for people and for scripts."""

from __future__ import annotations

from collections.abc import Iterable
from typing import cast

from jigs.assumed import NOT_MEASURED, assumed_text
from jigs.findings import Finding
from jigs.job import Job, Unit
from jigs.keys import KEYS, Key, Value
from jigs.keys.key import Form
from jigs.lengths import show_length
from jigs.lists import show_list
from jigs.part import Part
from jigs.plan import Plan
from jigs.tables import table
from jigs.verdict import verdict
from jigs.words.amounts import area_text, volume_text
from jigs.words.layup.layup import layup_sections
from jigs.words.sections import Row, Section
from jigs.words.wood import wood_sections

READING = 'How lengths read: "2.326 in (2 21/64)": set a calliper or a fence to 2.326, a rule to 2 21/64, the nearest.'
# Keys and whole tables that nothing of the form looks at, but for the exceptions.
UNUSED: dict[Form, frozenset[str]] = {
    "torus": frozenset(
        ("layup.rings", "gauges.longest_in_hand", "gauges.widest_gap", "made.glue_up", "made.centring")
    ),
    "vessel": frozenset(
        ("holding", "bandsaw", "cutting", "clamping", "gauges.flats_left", "bolts.braces", "made.sled",
         "made.clamping", "spares.rings", "made.standing", "made.mountings", "made.pads")
    ),
}  # fmt: skip
EXCEPT: dict[Form, frozenset[str]] = {
    "torus": frozenset(),
    "vessel": frozenset(("holding.washer", "clamping.band_overlap")),
}


def sections(plan: Plan) -> list[Section]:
    """Everything a turner checks before buying wood, in the order of the work, then every value used."""
    if plan.kind == "vessel":
        from jigs.words.vessel import vessel_sections

        return [*vessel_sections(plan), *_of_the_wood(plan), _values(plan.job, plan.kind)]
    from jigs.words.torus import torus_sections

    return [*torus_sections(plan), *_of_the_wood(plan), _values(plan.job, plan.kind)]


def _of_the_wood(plan: Plan) -> list[Section]:
    """Of both forms: what is sawn from what, and the layup."""
    return [*wood_sections(plan), *layup_sections(plan.job, plan.layups, plan.wood.steps)]


def _values(job: Job, form: Form) -> Section:
    """Every value of the job and workshop files that this form looks at, and whether it is a default."""
    owners = {**vars(job), **vars(job.workshop)}
    rows = [
        Row(key.path, _value(key, value, job.unit) + _origin(key, job), "text")
        for key in KEYS
        if key.table not in ("profile", "inside")  # the sections draw them out
        and (key.path in EXCEPT[form] or not {key.path, key.table} & UNUSED[form])
        and (value := getattr(owners.get(key.table), key.name, None)) not in (None, ())
    ]
    return Section("Values used", tuple(rows))


def _origin(key: Key, job: Job) -> str:
    if key.path in job.places:
        return ""
    return "  (follows)" if key.default is None else "  (default)"


def _value(key: Key, value: Value, unit: Unit) -> str:
    if key.path == "staves.species":  # one round, not by ring
        return ", ".join(cast("tuple[str, ...]", value))
    if isinstance(value, tuple):
        return show_list(key, value, unit)
    if key.kind == "flag":
        return "yes" if value else "no"
    return show_length(float(str(value)), unit) if key.kind == "length" else str(value)


def shown(row: Row, unit: Unit) -> str:
    """A row's value as a person reads it."""
    if isinstance(row.value, str):
        return row.value
    match row.kind:
        case "length":
            return show_length(row.value, unit)
        case "angle":
            return f"{row.value:.2f}°"
        case "volume":
            return volume_text(row.value, unit)
        case "area":
            return area_text(row.value, unit)
        case "ratio":
            return f"{row.value:.2f}"
        case _:
            return str(row.value)


def report_text(plan: Plan, parts: Iterable[Part], notes: Iterable[Finding]) -> str:
    """All sections as tables, the jigs, then the notes and the verdict."""
    unit = plan.job.unit
    blocks = [section_text(section, unit) for section in sections(plan)]
    notes = [*plan.notes, *notes]
    first = assumed_text(notes)
    told = [note.told for note in notes if note.code != NOT_MEASURED]
    reading = [READING] if unit == "in" else []
    return "\n\n".join(
        [
            *([first] if first else []),
            *reading,
            *blocks,
            "Jigs\n" + rack_text(parts, unit),
            "\n".join([*told, f"{plan.job.title}: it {verdict(plan)}."]),
        ]
    )


def section_text(section: Section, unit: Unit) -> str:
    """A section as a table with its cautions."""
    rows = [(row.name, shown(row, unit)) for row in section.rows]
    cautions = [f"  ! {caution}" for caution in section.cautions]
    return "\n".join([section.title, *table(rows), *cautions])


def report_json(plan: Plan, parts: Iterable[Part], notes: Iterable[Finding]) -> dict[str, object]:
    """The same for scripts: mm, degrees, mm3."""
    return {
        "job": plan.job.name,
        "verdict": verdict(plan),
        "sections": [
            {
                "title": section.title,
                "rows": [{"name": row.name, "value": row.value, "kind": row.kind} for row in section.rows],
                "cautions": list(section.cautions),
            }
            for section in sections(plan)
        ],
        "jigs": [
            {"code": p.code, "part": p.name, "quantity": p.quantity, "process": p.process} for p in parts
        ],
        "notes": [note.told for note in (*plan.notes, *notes)],
    }


def rack_text(parts: Iterable[Part], unit: Unit) -> str:
    """The jigs as a table: the code that each carries, name, how many, how made, size, what for."""
    rows = [("code", "jig", "pieces", "made by", "size", "for")]
    for part in parts:
        x0, y0, x1, y1 = part.outline.bounds
        size = f"{show_length(x1 - x0, unit)} x {show_length(y1 - y0, unit)}"
        rows.append((part.code, part.name, str(part.quantity), part.process, size, part.purpose))
    return "\n".join(table(rows))
