"""A blank readings file: every box of the book, in the order in which the readings are taken."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import degrees

from jigs.asked.key import Form
from jigs.asked.readings.read import NOT_READ
from jigs.asked.readings.readings import ACCURACY
from jigs.asked.toml_source import dotted
from jigs.words.lengths import MM_PER_INCH, Unit, inch_decimals
from jigs.work.model import Operation, Reading, Work

HEAD = """# Readings of {title}. Take away the # in front of a line and write what you measured.
# Plain numbers are {unit}; angles are degrees. In a list, "" is a box left out.
# A reading by a finer or a coarser hand: key = {{ reading = {example}, accuracy = {accuracy} }}
unit = "{short}"

# How far your instruments may be out, each way; these hold where you state nothing.
[accuracy]
{accuracies}
"""


# Of rings that are glued already, if the rest is to be planned round them.
GLUED: Mapping[Form, str] = {
    "torus": """
# Only if wedge rings that are cut or glued already are to stay, such as a half: the others are planned round them.
[glued]
# rings =   # how many stay: they are numbered last
# across-flats =   # their mean, or a list
# thick =   # thick edges of those between its ends, mean or list
# together =   # degrees that all of them close
""",
    "vessel": """
# Only if glued rings are to stay whatever the job asks for now: the others are planned round them.
[glued]
# rings =   # how many stay, from the foot up
# height = ["", ""]  # of each ring
# across-flats = ["", ""]  # of each; of an odd count from a flat to the corner over it, of a disc its diameter
# opening = ["", ""]  # of each, likewise; "" where there is none
""",
}


def blank_text(work: Work, form: Form) -> str:
    """The file as text; every line of a reading is a comment until it is written."""
    inch = work.unit == "in"
    head = HEAD.format(
        title=work.title,
        unit="inches" if inch else "mm",
        short=work.unit,
        example="0.031" if inch else "0.8",
        accuracy="0.001" if inch else "0.02",
        accuracies="\n".join(_accuracies(work.unit)),
    )
    return head + "".join(_section(one, work.unit) for one in work.operations if one.readings) + GLUED[form]


def _accuracies(unit: Unit) -> Iterator[str]:
    for name, accuracy in ACCURACY.items():
        if name == "protractor":
            yield f"# {name} = {accuracy:g}  # degrees"
        elif accuracy:
            yield f"# {name} = {_number(accuracy, unit)}"


def _section(operation: Operation, unit: Unit) -> str:
    lines = "".join(f"{_line(reading, unit)}\n" for reading in operation.readings)
    return f"\n# {operation.does}\n[{operation.id}]\n{lines}"


def _line(reading: Reading, unit: Unit) -> str:
    planned = _planned(reading, unit)
    value = "" if reading.count == 1 else "[" + ", ".join([f'"{NOT_READ}"'] * reading.count) + "]"
    by = "" if reading.by in ("calliper", "eye") else f"by {reading.by}"
    told = ", ".join(part for part in (reading.label, by, f"planned {planned}" if planned else "") if part)
    return f"# {dotted((reading.id,))} = {value}  # {told}"


def _planned(reading: Reading, unit: Unit) -> str:
    if reading.planned is None:
        return ""
    value, kind = reading.planned.value, reading.planned.kind
    if isinstance(value, str):
        return value
    if kind == "angle":
        return f"{degrees(value):.3f}".rstrip("0").rstrip(".")
    return f"{value:g}" if kind == "count" else _number(value, unit)


def _number(mm: float, unit: Unit) -> str:
    return f"{mm:.2f}" if unit == "mm" else inch_decimals(mm / MM_PER_INCH)
