"""Quantities as lines of a label and a value, the shopping list's lines, a table's cells: as people read them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from jigs.render.amounts import shown, sizes
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity, runs
from jigs.work.model import Cell, Column, Goods, Table

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
    lone = quantity.kind in ("length", "rule", "calliper", "run")
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
