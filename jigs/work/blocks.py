"""Waste blocks as rows of the cut list: they are sawn from scrap, so no board and no lot is theirs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from geometry.records import replace
from jigs.work.model import Cell, Goods, Operation, Table

TABLE, BLOCK = "cut-list", "hardwood.waste-block"  # what its goods' ids begin with


def with_blocks(table: Table, operations: Iterable[Operation]) -> Table:
    """The cut list with a row for every sort of block that the work uses up; any other table as it is."""
    if table.id != TABLE:
        return table
    blocks = [_row(goods) for goods in _blocks(operations)]
    return replace(
        table, rows=(*table.rows, *(tuple(row.get(c.id) for c in table.columns) for row in blocks))
    )


def _blocks(operations: Iterable[Operation]) -> Iterator[Goods]:
    for operation in operations:
        yield from (goods for goods in operation.uses_up if goods.id.startswith(BLOCK))


def _row(goods: Goods) -> Mapping[str, Cell]:
    count, thickness, width, length = (quantity.value for quantity in goods.amount)
    return {
        "pieces": goods.what,
        "species": "hardwood scrap",
        "count": count,
        "way": "by hand",
        "thickness": thickness,
        "width": width,
        "longer": length,
        "shorter": length,
    }
