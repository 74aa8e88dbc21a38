"""Quantities as people read them, in the job's unit: lines of a label and a value, shopping lists, cells of tables."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from math import degrees, floor, log10

from jigs.words.lengths import MM_PER_INCH, Unit, inch_decimals, mixed, within
from jigs.words.quantity import Kind, Quantity, count_text, runs
from jigs.words.trade import (
    BOARD_FOOT,
    CUBIC_METRE,
    FLUID_OUNCE,
    FOOT,
    KILOGRAM,
    METRE,
    OUNCE,
    SQUARE_FOOT,
    SQUARE_METRE,
)
from jigs.work.model import Cell, Column, Goods, Table

N_PER_POUND = 4.4482216152605  # pound-force, exact
NM_PER_POUND_INCH = N_PER_POUND * MM_PER_INCH / 1000
NO_BREAK = "\u00a0"
LINE = 24  # letters of a value that stands in one piece
BETWEEN = re.compile(r"(?<=,) | (?=(?:to|x|×) )")
SMALL = 100  # lbf or N, below which a luggage scale is read to tenths; in-lbf too
RULE = 64  # the finest fraction of an inch on a rule
TOLD = 0.001  # inch: sizes are shown to it
OUNCES = 16  # in a pound
FEW = 0.2  # oz


def shown(quantity: Quantity, unit: Unit) -> str:
    """As fine as the hand sets or measures it: 0.1 mm by fence or rule, 0.01 mm by calliper; 0.001 in, and in brackets
    the nearest 1/64 where a rule tells it; of a limit the next that keeps it; a size that is a fraction has it too."""
    value = quantity.value
    if isinstance(value, str):
        return value
    match quantity.kind:
        case "length" | "rule" | "calliper":
            return _length(value, quantity, unit)
        case "angle":
            return f"{degrees(value):.2f}°"
        case "area":
            return f"{value / 1e2:.0f} cm²" if unit == "mm" else f"{value / MM_PER_INCH**2:.1f} in²"
        case "volume":
            return f"{value / 1e6:.3f} l" if unit == "mm" else f"{value / MM_PER_INCH**3:.1f} in³"
        case "spread":
            return f"{value / SQUARE_METRE:.2f} m²" if unit == "mm" else f"{value / SQUARE_FOOT:.1f} ft²"
        case "timber":
            return _timber(value, unit)
        case "liquid":
            return f"{value / 1e3:.0f} ml" if unit == "mm" else f"{value / FLUID_OUNCE:.1f} fl oz"
        case "run":
            return f"{value / METRE:.1f} m" if unit == "mm" else f"{value / FOOT:.0f} ft"
        case "weight":
            return _metric_weight(value) if unit == "mm" else _avoirdupois(value)
        case "force":
            return (
                f"{_pulled(value, quantity)} N"
                if unit == "mm"
                else f"{_pulled(value / N_PER_POUND, quantity)} lbf"
            )
        case "torque":
            inch_pounds = value / NM_PER_POUND_INCH
            newton_metres = f"{within(value, 0.01, quantity.bound):.2f} N m"
            return newton_metres if unit == "mm" else f"{_pulled(inch_pounds, quantity)} in-lbf"
        case "share":
            return f"{100 * value:.0f} %"
        case "ratio":
            return f"{value:.2f}"
        case "minutes":
            return minutes_text(value)
        case "hours":
            return f"{value:.0f} h" if value >= 10 else f"{value:.1f} h"
        case "days":
            return count_text(round(value), "day")
        case "speed":
            return f"{_rounded_down(value):.0f} rpm"
        case "money":
            return f"{value:.2f}"
        case _:
            return str(value)


def _rounded_down(speed: float) -> float:
    """As a lathe is set: two figures, never faster."""
    least = 10 ** max(0, floor(log10(speed)) - 1) if speed > 0 else 1
    return speed // least * least


def minutes_text(minutes: float) -> str:
    """ "25 min", "1 h 40 min" """
    whole = max(1, round(minutes))
    return f"{whole} min" if whole < 60 else f"{whole // 60} h {whole % 60:02d} min"


def sizes(lengths: Iterable[Quantity], unit: Unit) -> str:
    """ "22.0 × 150.0 mm", "0.750 (3/4) × 6.000 in" """
    return " × ".join(shown(length, unit).replace(f" {unit}", "") for length in lengths) + f" {unit}"


def unbroken(text: str) -> str:
    """A number in one piece on a line, "12.062 in (12 1/16)"; of several, "1.00° to 2.00°", each; words as they are."""
    if not text[:1].isdigit() or (len(text) > LINE and "×" not in text):
        return text
    return " ".join(part.replace(" ", NO_BREAK) for part in BETWEEN.split(text))


def _pulled(value: float, quantity: Quantity) -> str:
    """Of force or torque, in tenths where they are few: a limit is kept."""
    return f"{within(value, 0.1 if value < SMALL else 1.0, quantity.bound):g}"


def _timber(mm3: float, unit: Unit) -> str:
    """A place more of what is less than a litre or a board foot, so that small works can be told apart."""
    metres, feet = mm3 / CUBIC_METRE, mm3 / BOARD_FOOT
    if unit == "mm":
        return f"{metres:.{5 if 0 < metres < 0.001 else 4}f} m³"
    return f"{feet:.{2 if 0 < feet < 0.995 else 1}f} board feet"


def shown_to(kind: Kind, unit: Unit) -> float | None:
    """The step in which a length is shown, mm; None for what is none."""
    if kind not in ("length", "rule", "calliper"):
        return None
    return TOLD * MM_PER_INCH if unit == "in" else 0.01 if kind == "calliper" else 0.1


def _metric_weight(grams: float) -> str:
    """Of what needs two to lift nobody reads five figures."""
    return f"{grams / KILOGRAM:.1f} kg" if round(grams) >= 10 * KILOGRAM else f"{grams:.0f} g"


def _avoirdupois(grams: float) -> str:
    """Ounces, in hundredths where they are few; pounds from one on."""
    ounces = grams / OUNCE
    if ounces >= OUNCES:
        return f"{ounces / OUNCES:.2f} lb"
    return f"{ounces:.{2 if ounces < FEW else 1}f} oz"


def _length(mm: float, quantity: Quantity, unit: Unit) -> str:
    if unit == "mm":
        places = 2 if quantity.kind == "calliper" else 1
        limit = within(mm, 0.1**places, quantity.bound) if quantity.bound else mm
        return f"{limit:.{places}f} mm"
    inches = mm / MM_PER_INCH
    told = f"{inch_decimals(inches)} in"
    rule = within(abs(inches), 1 / RULE, quantity.bound)
    exact = abs(abs(inches) - rule) < TOLD / 2
    # Whole inches stand in the decimals already; a calliper's or a fence's size is a fraction only where it is that.
    if (
        abs(inches) < 1 / RULE
        or abs(inches - round(inches)) < TOLD / 2
        or not (exact or quantity.kind == "rule")
    ):
        return told
    return f"{told} ({'-' if inches < 0 else ''}{mixed(round(rule * RULE), RULE)})"


SIDES = ("thickness", "width", "length")


def lines(quantities: Sequence[Quantity], unit: Unit) -> Iterator[tuple[str, str]]:
    """Each a line, but for what belongs together: a count with the three sides of what is counted, which have these in
    their ids, and two numbers whose ids end in ".from" and ".to"."""
    k = 0
    while k < len(quantities):
        one, after = quantities[k], quantities[k + 1 : k + 1 + len(SIDES)]
        taken = 1
        if (
            one.kind == "count"
            and [_counted(q, side) for q, side in zip(after, SIDES, strict=False)] == [one.id] * 3
        ):
            taken += len(SIDES)
            yield one.label, f"{one.value} × {sizes(after, unit)}"
        elif one.id.endswith(".from") and after and after[0].id == f"{one.id.removesuffix('.from')}.to":
            taken += 1
            yield _between(one, after[0], unit)
        else:
            yield one.label, shown(one, unit)
        k += taken


def _counted(side: Quantity, name: str) -> str:
    """Of what it is a side, by id: "boards.1" of "boards.thickness.1"."""
    return ".".join(part for part in side.id.split(".") if part != name)


def _between(low: Quantity, high: Quantity, unit: Unit) -> tuple[str, str]:
    """ "Usual speed", "579 to 868 rpm"; "0.531 to 0.903 in", no fractions between"""
    least, most = (shown(one, unit).partition(" (")[0] for one in (low, high))
    _, space, end = most.partition(" ")
    label = low.label.removesuffix(" from").removesuffix(",")
    return label, f"{least.removesuffix(space + end) if space else least} to {most}"


def by_group(goods: Sequence[Goods]) -> list[tuple[str, list[Goods]]]:
    """They stand in the order of their groups."""
    return [(group, list(own)) for group, own in groupby(goods, lambda one: one.group)]


def amount_text(goods: Goods, unit: Unit) -> str:
    """How many, of what size, how much that is in all: "7", "1; 24.0 × 150.0 × 2000.0 mm; 0.30 m²"."""
    count = [str(q.value) for q in goods.amount if q.kind == "count"]
    sides = [q for q in goods.amount if q.id in SIDES]
    block = sides if len(sides) > 1 else []
    told = [_told(q, unit) for q in goods.amount if q not in block and q.kind != "count"]
    return "; ".join([*count, *([sizes(block, unit)] if block else []), *told])


def _told(quantity: Quantity, unit: Unit) -> str:
    share = "." in quantity.id  # of the amount before it
    lone = share or quantity.kind in ("length", "rule", "calliper", "run")
    return f"{quantity.label.lower()} {shown(quantity, unit)}" if lone else shown(quantity, unit)


def cell_text(cell: Cell, column: Column, unit: Unit) -> str:
    """Nothing for an empty one; several numbers, any of them, behind one another."""
    if cell is None:
        return ""
    if isinstance(cell, Quantity):
        return shown(cell, unit)
    if isinstance(cell, tuple) and column.kind == "rings":
        return runs([int(ring) for ring in cell])
    if isinstance(cell, tuple):
        return ", ".join(dict.fromkeys(cell_text(one, column, unit) for one in cell))
    return (
        cell if isinstance(cell, str) else shown(Quantity(column.id, column.label, cell, column.kind), unit)
    )


def table_text(table: Table, unit: Unit) -> tuple[list[str], list[list[str]]]:
    """Headings and rows, without the columns in which no row has anything."""
    rows = [
        [cell_text(cell, col, unit) for cell, col in zip(row, table.columns, strict=True)]
        for row in table.rows
    ]
    kept = [k for k in range(len(table.columns)) if any(row[k] for row in rows)]
    return [table.columns[k].label for k in kept], [[row[k] for k in kept] for row in rows]
