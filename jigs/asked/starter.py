"""A commented starter job: what was answered, and every other key with its meaning and default."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping

from geometry.hardware.fittings import fittings_for
from geometry.records import replace
from jigs.asked.change import toml_value
from jigs.asked.job import Form as TorusForm
from jigs.asked.job import TorusJob
from jigs.asked.job_wood import Board, Ply
from jigs.asked.jobfile import AnyJob, parse
from jigs.asked.key import FINISHED, Form, Key, Kind
from jigs.asked.keys import DIAMETERS, TABLES, keys_of_form
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import MM_PER_INCH, Unit, show_length, typed_length
from jigs.words.trade import SOLD

_CORE = "form.core_opening"
_PLACEHOLDERS: Mapping[Form, Mapping[str, object]] = {
    "torus": {"name": "new", _CORE: "1 mm"},
    "vessel": {"name": "new"},
}
_HEAD = """\
# A {form} job. Lengths are numbers in this file's unit, or text such as "12 5/8 in" or "38 mm".
# A key behind "# " shows what holds without it: take the "# " away to change it.
"""
FOR_INCHES = re.compile("; in a (?:job|file) in inches ")  # what follows holds there instead
DECIMALS = 4  # of an inch
_MM = re.compile(r"(\d+(?:\.\d+)?) mm\b")
_LENGTHS: tuple[Kind, ...] = ("length", "bed", "stages", "heights", "points", "boards", "plies")


def starter(answers: Mapping[str, object], form: Form = "torus") -> str:
    """Return the text of a job file with these values, by dotted key, as the file would give them.

    Without `form.core_opening` one is suggested. Raises Refused where the answers make no job; a
    workshop file that they name is not looked for.
    """
    _check_keys(answers, form)
    trial = {
        key: value for key, value in {**_PLACEHOLDERS[form], **answers}.items() if key != "workshop_file"
    }
    try:
        job = parse(_text(trial, "mm", form))
    except Refused as refused:
        raise Refused(replace(finding, file="", line=0) for finding in refused.findings) from None
    return _text({**_suggested(job), **answers}, job.unit, form)


def _suggested(job: AnyJob) -> dict[str, object]:
    if not isinstance(job, TorusJob):
        return {}
    core = suggested_core(job.form, job.unit)
    return {_CORE: core if job.unit == "mm" else typed_length(core, "in")}


def suggested_core(form: TorusForm, unit: Unit) -> float:
    """Return a core opening (mm, across flats) that leaves about half the tube's radius as wall.

    Rounded down to 1 mm or 1/8 in, but where the tube is twice as thick no smaller than what the sled's draw rod needs.
    The exact wall is the plan's business.
    """

    tilt = math.cos(math.pi / form.wedge_rings)
    bulge = form.major_radius * (1 / tilt - 1)  # the straight core leaves the curved tube by this
    radius = min(form.tube.wide, form.tube.high)
    wall = max(form.least_wall, radius / 2)
    corner = (radius - wall - bulge) * tilt
    step = 1.0 if unit == "mm" else MM_PER_INCH / 8
    needed = math.ceil(fittings_for(unit == "in").smallest_core / step)
    least = needed if needed * step <= radius else 2
    return max(2 * corner * math.cos(math.pi / form.segments) // step, least) * step


def _check_keys(answers: Mapping[str, object], form: Form) -> None:
    unknown = sorted(answers.keys() - {key.path for key in keys_of_form(form)})
    if unknown:
        raise Refused(Finding("unknown-key", f"is not a key of a {form} job", key=path) for path in unknown)


def _text(answers: Mapping[str, object], unit: Unit, form: Form) -> str:
    tables = [(name, table.help) for name, table in TABLES.items() if table.form in (None, form)]
    blocks = [
        f"# {told_in(said, unit)}.\n[{name}]\n{_lines(name, answers, unit, form)}" for name, said in tables
    ]
    return "\n".join([_HEAD.format(form=form), _lines("", answers, unit, form), *blocks])


def _lines(table: str, answers: Mapping[str, object], unit: Unit, form: Form) -> str:
    return "".join(f"{_line(key, answers, unit)}\n" for key in keys_of_form(form) if key.table == table)


def _line(key: Key, answers: Mapping[str, object], unit: Unit) -> str:
    if key.path in answers:
        return f"{key.name} = {_toml(answers[key.path])}  # {told_in(key.help, unit)}"
    if key.path in DIAMETERS or key.required:
        return f"# {key.name}: {told_in(key.unset or key.help, unit)}"
    unset = f"; without it: {told_in(key.unset, unit)}" if key.unset else ""
    return f"# {key.name} = {_toml(_shown_default(key, unit))}  # {told_in(key.help, unit)}{unset}"


def _shown_default(key: Key, unit: Unit) -> object:
    value = key.example_in(unit) if key.default is None else key.default_in(unit)
    if unit == "in" and key.kind == "length" and isinstance(value, float):
        inches = _handy(value) if key.default is None else _inches(value)
        return max(inches, math.ceil(key.least / MM_PER_INCH * 10**DECIMALS) / 10**DECIMALS)
    if key.kind == "names" and isinstance(value, tuple):
        return value[0]
    if key.kind == "number" and isinstance(value, float):
        return float(f"{value * SOLD[key.per][unit]:.4g}")
    if key.kind not in _LENGTHS:
        return value
    shown = _in_unit(value, unit, _inches if key.default is not None else _handy)
    return [*shown, FINISHED] if key.kind == "stages" and isinstance(shown, list) else shown


def _in_unit(value: object, unit: Unit, inches: Callable[[float], float]) -> object:
    """Lengths, however deep in lists, as the file writes millimetres."""
    if isinstance(value, tuple):
        return [_in_unit(item, unit, inches) for item in value]
    if isinstance(value, Ply):
        return [_in_unit(item, unit, inches) for item in vars(value).values() if item is not None]
    if isinstance(value, Board):
        return {name: _in_unit(size, unit, inches) for name, size in vars(value).items()}
    return inches(value) if unit == "in" and isinstance(value, float) else value


def _inches(mm: float) -> float:
    return round(mm / MM_PER_INCH, DECIMALS)


def _handy(mm: float) -> float:
    """A size like it that is in a shop in inches: an example is no default, and need not be exact."""
    parts = 8 if mm > MM_PER_INCH else 64
    return _inches(round(mm / MM_PER_INCH * parts) / parts * MM_PER_INCH)


def told_in(text: str, unit: Unit) -> str:
    """What a key means, in the file's unit."""
    metric, *inches = FOR_INCHES.split(text, maxsplit=1)
    if unit == "mm":
        return metric
    return inches[0] if inches else _MM.sub(lambda found: show_length(float(found[1]), "in"), metric)


def _toml(value: object) -> str:
    return toml_value(value, _plain)


def _plain(number: object) -> str:
    """A number without zeros that say nothing."""
    return f"{number:g}" if isinstance(number, float) and number == round(number, 4) else str(number)
