"""From a job file to a Job: everything wrong with it, and with its workshop file, is told at once."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, cast

from jigs import toml_source
from jigs.findings import Finding, Refused
from jigs.job import (
    Bandsaw,
    Boards,
    Bolts,
    ClampingWish,
    Cutter,
    Cutting,
    Form,
    GaugeWish,
    HoldingWish,
    Job,
    Lathe,
    Made,
    Place,
    Printer,
    Saw,
    SledWish,
    TruingWish,
    Unit,
    Workshop,
)
from jigs.keys import (
    DIAMETERS,
    KEYS,
    TABLES,
    FileKind,
    Key,
    Value,
    default_allowance,
    default_stages,
    keys_of,
)
from jigs.lengths import show_length
from jigs.toml_source import Source
from jigs.values import RANGE, Wrong, read_value

_AGREE = 0.01  # mm: three diameters may differ by this, from rounding
_ALL = {key.path: key for key in KEYS}


@dataclass(frozen=True)
class _Read:
    """One file as far as it could be read."""

    file: str
    unit: Unit
    values: Mapping[str, Value]
    written: frozenset[str]  # also those whose value is wrong
    places: Mapping[str, Place]
    faults: tuple[Finding, ...]


def load(path: Path | str) -> Job:
    """Read a job file and the workshop file it names. Raises Refused with every fault of both."""
    path = Path(path)
    return _job(toml_source.read(path), path)


def parse(text: str, path: Path | str = "job.toml") -> Job:
    """Read a job from text; `path` is where it would stand, and gives its name. Raises Refused."""
    return _job(toml_source.parse(text, str(path)), Path(path))


def _job(source: Source, path: Path) -> Job:
    asked = _read(source, "job")
    shed = _read_workshop(asked, path)
    known = {key.path: key.default for key in KEYS} | dict(shed.values) | dict(asked.values)
    together = (*_missing(asked), *_name_fault(asked, path), *_torus_faults(asked), *_stage_faults(asked))
    together = (*together, *_bandsaw_faults(asked, shed))
    faults = (*asked.faults, *together, *shed.faults)
    if faults:
        raise Refused(sorted(faults, key=lambda fault: (fault.file != asked.file, fault.line)))
    job = _build(known, asked, {**shed.places, **asked.places}, path)
    return replace(job, workshop_source=Path(shed.file) if shed.file else None)


def _read_workshop(asked: _Read, path: Path) -> _Read:
    name = asked.values.get("workshop_file")
    if name is None:
        return _Read("", "mm", {}, frozenset(), {}, ())
    shed = path.parent / f"{str(name).removesuffix('.toml')}.toml"
    try:
        return _read(toml_source.read(shed), "workshop")
    except Refused as refused:
        faults = tuple(_blame_job(fault, asked, shed) for fault in refused.findings)
        return _Read(str(shed), "mm", {}, frozenset(), {}, faults)


def _blame_job(fault: Finding, asked: _Read, shed: Path) -> Finding:
    """A missing workshop file is the fault of the line that names it; others stay where they are."""
    if fault.code != "no-file":
        return fault
    place = asked.places["workshop_file"]
    near = difflib.get_close_matches(shed.name, _neighbours(shed, Path(place.file)), n=1)
    remedy = f'Did you mean "{near[0]}"?' if near else "Name a file beside the job, or leave the key out"
    return Finding("no-file", f"{shed} {fault.message}", remedy, "workshop_file", place.file, place.line)


def _neighbours(shed: Path, job: Path) -> list[str]:
    try:
        return [file.name for file in shed.parent.glob("*.toml") if file.name != job.name]
    except OSError:  # a folder's name that the system cannot even look up
        return []


def _read(source: Source, kind: FileKind) -> _Read:
    keys = {key.path: key for key in keys_of(kind)}
    faults: list[Finding] = []
    entries = dict(_entries(source.data, {key.table for key in keys.values()}))
    raw_values = {path: raw for path, raw in entries.items() if path in keys}
    faults += [_unknown(source, path, keys, kind) for path in entries if path not in keys]
    values: dict[str, Value] = {}
    unit = _unit(raw_values.get("unit", "mm"))
    for path, raw in raw_values.items():
        try:
            values[path] = read_value(keys[path], raw, unit or "mm")
        except Wrong as wrong:
            if unit or wrong.code != RANGE:  # sizes cannot be judged in an unknown unit
                place = source.lines.get(path, 0)
                faults.append(Finding(wrong.code, wrong.message, wrong.remedy, path, source.file, place))
    places = {path: Place(source.file, line) for path, line in source.lines.items()}
    return _Read(source.file, unit or "mm", values, frozenset(raw_values), places, tuple(faults))


def _unit(raw: object) -> Unit | None:
    return cast(Unit, raw) if raw in _ALL["unit"].choices else None


def _entries(data: Mapping[str, Any], tables: set[str]) -> Iterator[tuple[str, Any]]:
    """Keys of the file, those of these tables as table.name; any other table stays whole."""
    for name, value in data.items():
        if name in tables and isinstance(value, dict):
            yield from ((toml_source.dotted((name, inner)), raw) for inner, raw in value.items())
        else:
            yield toml_source.dotted((name,)), value


def _unknown(source: Source, path: str, keys: Mapping[str, Key], kind: FileKind) -> Finding:
    line = source.lines.get(path, 0)
    if path in TABLES and any(key.table == path for key in keys.values()):
        remedy = f"Write [{path}] once, above its keys"
        return Finding("wrong-type", "has to be a table", remedy, path, source.file, line)
    if path in _ALL or path in TABLES:
        message = f"does not belong in a {kind} file"
        return Finding("misplaced-key", message, "Move it to the job file", path, source.file, line)
    return Finding("unknown-key", "is not a known key", _did_you_mean(path, keys), path, source.file, line)


def _did_you_mean(path: str, keys: Mapping[str, Key]) -> str:
    table, _, name = path.rpartition(".")
    here = [key.name for key in keys.values() if key.table == table]
    tables = sorted({key.table for key in keys.values()} - {""})
    elsewhere = [key for key in keys.values() if key.name == name]
    if elsewhere:
        return f"{name} belongs " + " or ".join(_where(key) for key in elsewhere)
    near = difflib.get_close_matches(name.lower(), here if table else here + tables, n=1)
    if near:
        return f"Did you mean {f'{table}.' if table else ''}{near[0]}?"
    far = difflib.get_close_matches(name.lower(), [key.name for key in keys.values()], n=1, cutoff=0.75)
    if far:
        return "Did you mean " + " or ".join(key.path for key in keys.values() if key.name == far[0]) + "?"
    return f"Leave it out; known here: {', '.join(here if table else here + tables)}"


def _where(key: Key) -> str:
    return f"in [{key.table}]" if key.table else "at the top, above the first table"


def _fault(asked: _Read, code: str, message: str, remedy: str, *keys: str) -> Finding:
    """A fault placed at the first of `keys` that was written."""
    place = next((asked.places[key] for key in keys if key in asked.places), None)
    return Finding(code, message, remedy, keys[0], asked.file, place.line if place else 0)


def _missing(asked: _Read) -> Iterator[Finding]:
    for key in KEYS:
        if key.required and key.path not in asked.written:
            remedy = f"Give {key.name} in [{key.table}], such as {key.example:g}: {key.help}"
            yield _fault(asked, "missing-key", "is missing", remedy, key.path, key.table)


def _name_fault(asked: _Read, path: Path) -> Iterable[Finding]:
    if "name" in asked.written:
        return
    try:
        read_value(_ALL["name"], path.stem, "mm")
    except Wrong as wrong:
        yield _fault(asked, wrong.code, wrong.message, 'Give name = "..." at the top of the file', "name")


def _torus_faults(asked: _Read) -> Iterator[Finding]:
    given = [path for path in DIAMETERS if path in asked.written]
    if len(given) < 2:
        names = ", ".join(path.partition(".")[2] for path in DIAMETERS)
        message = "alone does not fix the torus" if given else "states no size"
        yield _fault(asked, "missing-key", message, f"Give any two of {names}", *(given or ["form"]))
    elif all(path in asked.values for path in given):
        yield from _size_faults(asked, given)


def _size_faults(asked: _Read, given: list[str]) -> Iterator[Finding]:
    outer, hole, tube = _diameters(asked.values)
    if len(given) == 3 and abs(outer - hole - 2 * tube) > _AGREE:
        would = show_length(outer - 2 * tube, asked.unit)
        remedy = f"Leave one of the three out, or make the hole {would}"
        message = "does not agree with the other two diameters"
        yield _fault(asked, "diameters-disagree", message, remedy, "form.hole_diameter")
    elif hole <= 0 or tube <= 0:
        limit = show_length(outer / 2 if hole <= 0 else outer, asked.unit)
        what = "the tube leaves no hole" if hole <= 0 else "the hole leaves no tube"
        message = f"{what} in {show_length(outer, asked.unit)} across"
        yield _fault(asked, "no-torus", message, f"Make it less than {limit}", given[-1])


def _diameters(values: Mapping[str, Value | None]) -> tuple[float, float, float]:
    """Outer, hole and tube diameter from at least two of them."""
    outer, hole, tube = (cast("float | None", values.get(path)) for path in DIAMETERS)
    if outer is None:
        outer = cast(float, hole) + 2 * cast(float, tube)
    if tube is None:
        tube = (outer - cast(float, hole)) / 2
    return outer, outer - 2 * tube if hole is None else hole, tube


def _stage_faults(asked: _Read) -> Iterator[Finding]:
    stages = cast("tuple[float, ...]", asked.values.get("gauges.stages", ()))
    key = _ALL["gauges.sanding_allowance"]
    sanding = cast(float, asked.values.get(key.path, key.default))
    if stages and stages[-1] <= sanding:
        least = show_length(sanding, asked.unit)
        message = f"a stage is not above the {least} that the finished gauge leaves for sanding"
        yield _fault(asked, "bad-order", message, "Leave it out", "gauges.stages")


def _bandsaw_faults(asked: _Read, shed: _Read) -> Iterator[Finding]:
    """A bandsaw is only there with its height."""
    written = [
        (path, read) for read in (asked, shed) for path in sorted(read.written) if path.startswith("bandsaw.")
    ]
    if written and all(path != "bandsaw.height" for path, _ in written):
        path, read = written[0]
        remedy = "Give height in [bandsaw], the most under its guides, or leave the table out"
        yield _fault(read, "missing-key", "is missing", remedy, "bandsaw.height", path)


def _build(known: Mapping[str, Value | None], asked: _Read, places: Mapping[str, Place], path: Path) -> Job:
    tables = {name: _table(known, name) for name in TABLES}
    name = cast(str, known["name"] or path.stem)
    form = _form(tables["form"])
    workshop = Workshop(
        Cutting(**tables["cutting"]), Saw(**tables["saw"]), Bandsaw(**tables["bandsaw"]),
        SledWish(**tables["sled"]), TruingWish(**tables["truing"]), ClampingWish(**tables["clamping"]),
        Lathe(**tables["lathe"]),
        HoldingWish(**tables["holding"]), Bolts(**tables["bolts"]),
        Boards(**tables["boards"]), Made(**tables["made"]), Printer(**tables["printer"]), Cutter(**tables["cutter"]),
    )  # fmt: skip
    gauges = _gauges(tables["gauges"], form.turning_allowance)
    return Job(name, cast(str, known["title"] or name), asked.unit, path, form, gauges, workshop, places)


def _table(known: Mapping[str, Value | None], table: str) -> dict[str, Any]:
    return {key.name: known[key.path] for key in KEYS if key.table == table}


def _form(table: dict[str, Any]) -> Form:
    outer, _, tube = _diameters({path: table.pop(path.partition(".")[2]) for path in DIAMETERS})
    if table["turning_allowance"] is None:
        table["turning_allowance"] = default_allowance(outer)
    return Form(major_radius=(outer - tube) / 2, tube_radius=tube / 2, **table)


def _gauges(table: dict[str, Any], allowance: float) -> GaugeWish:
    stages, sanding = table.pop("stages"), table["sanding_allowance"]
    usual = default_stages(allowance, sanding)
    return GaugeWish(usual if stages is None else (*stages, sanding), **table)
