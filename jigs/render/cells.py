"""A table's cells as people read them."""

from __future__ import annotations

from jigs.render.amounts import shown
from jigs.words.counting import runs
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity
from jigs.work.model import Cell, Column, Table


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
