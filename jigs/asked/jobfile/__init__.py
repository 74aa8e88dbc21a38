"""From a job file to a job: everything wrong with it, and with its workshop file, is told at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias, cast

from geometry.strokes.letters import letterable
from jigs.asked import toml_source
from jigs.asked.job import TorusJob
from jigs.asked.jobfile.read import ALL, Read, read_file
from jigs.asked.jobfile.torus import torus_faults, torus_job
from jigs.asked.jobfile.workshop import Known, bandsaw_faults, layup_faults, read_workshop, stage_faults
from jigs.asked.key import Form, Key, Value, Wrong
from jigs.asked.keys import DIAMETERS, KEYS, TABLES, keys_of_form
from jigs.asked.readings.keys import KeyReadings, contradictions, key_readings
from jigs.asked.readings.read import load_readings
from jigs.asked.readings.readings import Readings
from jigs.asked.toml_source import Source
from jigs.asked.values import name_like, read_value
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import Unit, example_length

if TYPE_CHECKING:
    from jigs.asked.vessel_job import VesselJob  # it loads numpy, which a torus job is read without

AnyJob: TypeAlias = "TorusJob | VesselJob"
Build: TypeAlias = Callable[[Known, Mapping[str, Any]], AnyJob]
_BELONGS = {"torus": "form", "vessel": "profile"}  # the table that every job of a form has

# Of what is missing under a name, each of these would do.
_EITHER: Mapping[str, tuple[str, ...]] = {
    "form": DIAMETERS,
    **dict.fromkeys(DIAMETERS, DIAMETERS),
    "wall": ("wall.thickness", "wall.by_height"),
    **{
        table: tuple(f"{table}.{way}" for way in ("stations", "edges", "drawing"))
        for table in ("profile", "inside")
    },
}


def load(path: Path | str) -> AnyJob:
    """Read a job file and the files it names. Raises Refused with every fault of all of them."""
    path = Path(path)
    return job_of(toml_source.read(path), path)


def parse(text: str, path: Path | str = "job.toml") -> AnyJob:
    """Read a job from text; `path` is where it would stand, and gives its name. Raises Refused."""
    return job_of(toml_source.parse(text, str(path)), Path(path))


def form_of(source: Source) -> Form | None:
    """What a job file is about: a torus by [form], else a vessel by any of a vessel's tables, else nothing."""
    if _BELONGS["torus"] in source.data:
        return "torus"
    return "vessel" if any(table.form and name in source.data for name, table in TABLES.items()) else None


def job_of(source: Source, path: Path) -> AnyJob:
    """Make a job of a file's values; what it names is looked for beside `path`. Raises Refused."""
    form = form_of(source)
    asked = read_file(source, "job", form)
    shed = read_workshop(asked, path)
    faults, build = _by_form(asked, form, source, path.parent)
    faults = (*asked.faults, *_name_fault(asked, path), *stage_faults(asked), *layup_faults(asked), *faults)
    faults = (*faults, *bandsaw_faults(asked, shed), *shed.faults)
    faults = tuple(fault for fault in faults if not _is_misspelt(fault, asked, shed))
    if faults:
        raise Refused(sorted(faults, key=lambda fault: (fault.file != asked.file, fault.line)))
    readings = load_readings(path, asked.unit)
    defaults = {key.path: key.default_in(asked.unit) for key in KEYS}
    read = key_readings(readings, defaults)
    if read.faults:
        raise Refused(read.faults)
    known = defaults | _as_felt(readings, read) | dict(shed.values) | dict(asked.values)
    head = _head(asked, shed, known, path)
    places = {**read.places, **head["places"]}
    used = {**read.values, **shed.values, **asked.values}
    questions = (*head["questions"], *contradictions(readings, used, places, asked.unit))
    return build(known, {**head, "readings": readings, "places": places, "questions": questions})


def _as_felt(readings: Readings, read: KeyReadings) -> dict[str, Value | None]:
    """The keys' readings; the printer's play without what its coupon erred."""
    values: dict[str, Value | None] = dict(read.values)
    if isinstance(play := values.get("printer.play"), float):
        from jigs.asked.readings.machine import true_play  # it loads numpy

        values["printer.play"] = true_play(readings, play)
    return values


def _by_form(
    asked: Read, form: Form | None, source: Source, folder: Path
) -> tuple[tuple[Finding, ...], Build]:
    """What is wrong with the tables of its form, and what makes the job of them."""
    if form is None:
        remedy = "Give [form] for a torus, or [profile], [wall] and [rings] for a vessel"
        return (asked.fault("missing-key", "states neither a torus nor a vessel", remedy, "form"),), torus_job
    faults = (*_missing(asked, form), *_strangers(asked, form, source))
    if form == "torus":
        return (*faults, *torus_faults(asked)), torus_job
    from jigs.asked.jobfile.lid import read_pot
    from jigs.asked.jobfile.shape import read_shapes
    from jigs.asked.jobfile.vessel import vessel_faults, vessel_job

    shapes, wrong = read_shapes(asked, folder)
    pot, no_pot = read_pot(asked, folder, load)
    found = (*faults, *wrong, *vessel_faults(asked), *no_pot)
    return found, lambda known, head: vessel_job(known, head, shapes, pot)


def _head(asked: Read, shed: Read, known: Known, path: Path) -> dict[str, Any]:
    """What every job states."""
    name = cast(str, known["name"] or path.stem)
    title, unlettered = letterable(cast(str, known["title"] or name))
    return {
        "name": name,
        "title": title or name,
        "unlettered": unlettered,
        "unit": asked.unit,
        "source": path,
        "places": {**shed.places, **asked.places},
        "workshop_source": Path(shed.file) if shed.file else None,
        "questions": (*asked.questions, *shed.questions),
    }


def _missing(asked: Read, form: Form) -> Iterator[Finding]:
    for key in keys_of_form(form):
        if key.required and key.path not in asked.written:
            remedy = f"Give {key.name} in [{key.table}]{_example(key, asked.unit)}: {key.help}"
            yield asked.fault("missing-key", "is missing", remedy, key.path, key.table, _BELONGS[form])


def _is_misspelt(fault: Finding, *files: Read) -> bool:
    """Whether what is missing is there under an unknown key, which has a finding of its own."""
    table = fault.key.partition(".")[0]
    would_do = {fault.key, table, *_EITHER.get(fault.key, ())}
    return fault.code == "missing-key" and any(would_do & read.meant for read in files)


def _example(key: Key, unit: Unit) -> str:
    if not isinstance(key.example, int | float):
        return ""
    is_length = key.kind in ("length", "heights")
    return f", such as {example_length(key.example, unit) if is_length else key.example}"


def _strangers(asked: Read, form: Form, source: Source) -> Iterator[Finding]:
    """Tables of the other form."""
    for name, table in TABLES.items():
        if table.form not in (None, form) and isinstance(source.data.get(name), dict):
            message = f"does not belong in a {form} job, which [{_BELONGS[form]}] makes it"
            remedy = f"Leave [{name}] out, or [{_BELONGS[form]}]"
            yield asked.fault("misplaced-key", message, remedy, name)


def _name_fault(asked: Read, path: Path) -> Iterable[Finding]:
    if "name" in asked.written:
        return
    try:
        read_value(ALL["name"], path.stem, "mm")
    except Wrong as wrong:
        remedy = f'Give name = "{name_like(path.stem)}" at the top of the file'
        yield asked.fault(wrong.code, wrong.message, remedy, "name")
