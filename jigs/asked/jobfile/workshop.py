"""The workshop and the gauges, as both forms have them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, cast

from jigs.asked import toml_source
from jigs.asked.defaults import default_stages
from jigs.asked.job import GaugeWish
from jigs.asked.job_shop import Workshop
from jigs.asked.job_wood import LayupWish
from jigs.asked.jobfile.read import ALL, Read, read_file
from jigs.asked.key import Key, Value
from jigs.asked.keys import TABLES
from jigs.words.findings import Finding, Refused, near_names
from jigs.words.lengths import Unit, show_length

Known = Mapping[str, Value | None]
MOST_LOOKED_AT = 50  # files beside a job


def read_workshop(asked: Read, path: Path) -> Read:
    """The workshop file that a job names; an empty one where it names none."""
    name = asked.values.get("workshop_file")
    if name is None:
        return Read("", "mm", {}, frozenset(), {}, ())
    shed = path.parent / f"{str(name).removesuffix('.toml')}.toml"
    try:
        return read_file(toml_source.read(shed), "workshop")
    except Refused as refused:
        faults = tuple(_blame_job(fault, asked, shed) for fault in refused.findings)
        return Read(str(shed), "mm", {}, frozenset(), {}, faults)


def _blame_job(fault: Finding, asked: Read, shed: Path) -> Finding:
    """A missing workshop file is the fault of the line that names it; others stay where they are."""
    if fault.code != "no-file":
        return fault
    place = asked.places["workshop_file"]
    near = near_names(shed.stem, _neighbours(shed, Path(place.file)))
    remedy = f'Did you mean "{near[0]}"?' if near else "Name a file beside the job, or leave the key out"
    return Finding("no-file", f"{shed} {fault.message}", remedy, "workshop_file", place.file, place.line)


def _neighbours(shed: Path, job: Path) -> list[str]:
    """The names of workshop files beside a job, as a job states them."""
    try:
        files = [file for file in shed.parent.glob("*.toml") if file.name != job.name and file.is_file()]
    except OSError:  # a folder's name that the system cannot even look up
        return []
    return [file.stem for file in files[:MOST_LOOKED_AT] if _is_workshop(file)]


def _is_workshop(file: Path) -> bool:
    """Whether a file states what workshops state, and nothing else."""
    try:
        data = toml_source.read(file).data
    except Refused:
        return False
    return all(name == "unit" or (name in TABLES and TABLES[name].shared) for name in data)


def stage_faults(asked: Read) -> Iterator[Finding]:
    stages = cast("tuple[float, ...]", asked.values.get("gauges.stages", ()))
    key = ALL["gauges.sanding_allowance"]
    sanding = cast(float, asked.values.get(key.path, key.default))
    if stages and stages[-1] <= sanding:
        least = show_length(sanding, asked.unit)
        message = f"a stage is not above the {least} that the finished gauge leaves for sanding"
        yield asked.fault("bad-order", message, "Leave it out", "gauges.stages")


def bandsaw_faults(asked: Read, shed: Read) -> Iterator[Finding]:
    """A bandsaw is only there with its height."""
    written = [
        (path, read) for read in (asked, shed) for path in sorted(read.written) if path.startswith("bandsaw.")
    ]
    if written and all(path != "bandsaw.height" for path, _ in written):
        path, read = written[0]
        remedy = "Give height in [bandsaw], the most under its guides, or leave the section out"
        yield read.fault("missing-key", "is missing", remedy, "bandsaw.height", path)


def layup_faults(asked: Read) -> Iterator[Finding]:
    """A layup is only there with its plies."""
    written = sorted(path for path in asked.written if path.startswith("layup."))
    if written and "layup.plies" not in asked.written:
        remedy = "Give plies in [layup], or leave the section out"
        yield asked.fault("missing-key", "is missing", remedy, "layup.plies", *written)


def workshop_of(known: Known) -> Workshop:
    """Machines and materials."""
    return Workshop(**{name: record_of(known, name) for name, table in TABLES.items() if table.shared})


def layup_of(known: Known) -> LayupWish | None:
    """The layup, where there are plies."""
    return cast(LayupWish, record_of(known, "layup")) if known["layup.plies"] else None


def gauges_of(known: Known, allowance: float, unit: Unit) -> GaugeWish:
    """The gauges asked for, the usual stages where none are."""
    stages = cast("tuple[float, ...] | None", known["gauges.stages"])
    sanding = cast(float, known["gauges.sanding_allowance"])
    usual = default_stages(allowance, sanding, unit)
    return cast(GaugeWish, record_of(known, "gauges", stages=usual if stages is None else (*stages, sanding)))


def wood_named(known: Known, path: str) -> str | None:
    """A wood's name, as names of woods are compared."""
    named = cast("str | None", known[path])
    return None if named is None else named.strip().lower()


def record_of(known: Known, name: str, **changes: object) -> Any:
    """The record of a table's values, some of them changed."""
    record = cast("type[Any]", TABLES[name].record)
    return record(**{key.name: _value(key, known) for key in TABLES[name].keys} | changes)


def _value(key: Key, known: Known) -> Value | None:
    """A list of things that nobody wrote is empty."""
    value = known[key.path]
    return () if value is None and key.kind in ("boards", "prices") else value
