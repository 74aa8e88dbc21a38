"""Settings and tables for spreadsheets: numbers in mm, degrees, cm2, cm3, grams, whatever the job's unit.

A column's name ends in its unit; what is set or listed under a name has its number in the column of its unit.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from math import degrees

from jigs.words.quantity import Kind, Quantity
from jigs.words.trade import CUBIC_METRE, SQUARE_METRE
from jigs.work.model import Cell, Column, Goods, Operation, Table, Work

FORMULAS = ("=", "+", "-", "@", "\t", "\r")  # how a cell begins that spreadsheets reckon with
NUMBER = re.compile(r"-\d+(\.\d+)?(e[-+]\d+)?")  # as they are written here, below 0
UNITS: Mapping[Kind, tuple[str, float]] = {  # what a name ends in, how many of the model's make one
    "length": ("mm", 1.0),
    "rule": ("mm", 1.0),
    "calliper": ("mm", 1.0),
    "area": ("cm2", 100.0),
    "volume": ("cm3", 1000.0),
    "spread": ("m2", SQUARE_METRE),
    "timber": ("m3", CUBIC_METRE),
    "liquid": ("ml", 1000.0),
    "run": ("m", 1000.0),
    "weight": ("g", 1.0),
    "force": ("N", 1.0),
    "torque": ("Nm", 1.0),
    "minutes": ("min", 1.0),
    "hours": ("h", 1.0),
    "days": ("d", 1.0),
    "speed": ("rpm", 1.0),
}

FINER: Mapping[Kind, int] = {"timber": 5}  # places, where three are too few


def csv_tables(work: Work) -> dict[str, str]:
    """File name to text: the settings in the order of the work, then every table."""
    found = {"settings.csv": _settings(work.operations), "shopping.csv": _shopping(work.goods)}
    return found | {f"{table.id}.csv": _table(table) for table in work.tables}


def _settings(operations: Sequence[Operation]) -> str:
    head = ("step", "id", "place", "does", "pieces", "setting", "label", "unit", "value", "jigs")
    rows = [
        (
            str(number),
            one.id,
            one.place,
            one.does,
            str(one.pieces or ""),
            setting.id if setting else "",
            setting.label if setting else "",
            unit_of(setting.kind) if setting else "",
            number_text(setting.value, setting.kind) if setting else "",
            " ".join(use.part for use in one.jigs),
        )
        for number, one in enumerate(operations, 1)
        for setting in (*one.settings, *one.known) or (None,)
    ]
    return _text(head, rows)


def _shopping(goods: Sequence[Goods]) -> str:
    """A column for each amount that any line has."""
    told = [
        {_head(Column(q.id, "", q.kind)): number_text(q.value, q.kind) for q in one.amount} for one in goods
    ]
    heads = list(dict.fromkeys(head for amounts in told for head in amounts))
    costs = ["" if one.cost is None else f"{one.cost:.2f}" for one in goods]
    rows = [
        [one.id, one.group, one.what, *(amounts.get(head, "") for head in heads), cost]
        for one, amounts, cost in zip(goods, told, costs, strict=True)
    ]
    return _text(["id", "group", "what", *heads, "cost"], rows)


def _table(table: Table) -> str:
    named = any(isinstance(cell, Quantity) for row in table.rows for cell in row)
    if named:
        return _named(table)
    head = [_head(column) for column in table.columns]
    return _text(
        head, [[_cell(c, col) for c, col in zip(row, table.columns, strict=True)] for row in table.rows]
    )


def _named(table: Table) -> str:
    """A table of names and values: each number behind its unit."""
    head = ["id", *(column.id for column in table.columns if column.id != "value"), "unit", "value"]
    at = next(k for k, column in enumerate(table.columns) if column.id == "value")
    rows = []
    for row in table.rows:
        value = row[at]
        others = [_cell(c, col) for k, (c, col) in enumerate(zip(row, table.columns, strict=True)) if k != at]
        if isinstance(value, Quantity):
            rows.append([value.id, *others, unit_of(value.kind), number_text(value.value, value.kind)])
        else:
            rows.append(["", *others, "", _cell(value, table.columns[at])])
    return _text(head, rows)


def _head(column: Column) -> str:
    unit = unit_of(column.kind)
    name = column.id.replace("-", "_")
    return f"{name}_{unit}" if unit else name


def unit_of(kind: Kind) -> str:
    """Of the numbers of a kind; nothing for counts and words."""
    return "deg" if kind == "angle" else UNITS[kind][0] if kind in UNITS else ""


def number_text(value: float | int | str, kind: Kind) -> str:
    """To three places, boards by the cubic metre to five; words as they are."""
    if isinstance(value, str):
        return value
    if kind == "angle":
        return f"{degrees(value):.4f}"
    places = FINER.get(kind, 3)
    return f"{value / UNITS[kind][1]:.{places}f}" if kind in UNITS else f"{value:.10g}"


def _cell(cell: Cell, column: Column) -> str:
    if cell is None:
        return ""
    if isinstance(cell, Quantity):
        return number_text(cell.value, cell.kind)
    if isinstance(cell, tuple):
        return " ".join(_cell(one, column) for one in cell)
    return number_text(cell, column.kind)


def _text(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(head)
    writer.writerows([_harmless(cell) for cell in row] for row in rows)
    return out.getvalue()


def _harmless(cell: str) -> str:
    """Words that a spreadsheet would take for a formula get a quote in front, as one types it there."""
    return f"'{cell}" if cell.startswith(FORMULAS) and not NUMBER.fullmatch(cell) else cell
