"""The shopping list's lines as people read them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from jigs.render.amounts import shown, sizes
from jigs.render.lines import SIDES
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity
from jigs.work.model import Goods


def by_group(goods: Sequence[Goods]) -> list[tuple[str, list[Goods]]]:
    """They stand in the order of their groups."""
    return [(group, list(own)) for group, own in groupby(goods, lambda one: one.group)]


def goods_text(goods: Goods, unit: Unit) -> str:
    """ "7 × M8 x 120 bolt", "1 × maple board, 24.0 × 150.0 × 2000.0 mm; 0.30 m²" """
    count = [f"{q.value} × " for q in goods.amount if q.kind == "count"]
    more = size_text(goods, unit)
    return f"{''.join(count)}{goods.what}{f', {more}' if more else ''}"


def amount_text(goods: Goods, unit: Unit) -> str:
    """The same without what it is."""
    count = [str(q.value) for q in goods.amount if q.kind == "count"]
    return "; ".join([*count, *filter(None, [size_text(goods, unit)])])


def size_text(goods: Goods, unit: Unit) -> str:
    """Of what size, and how much that is in all."""
    sides = [q for q in goods.amount if q.id in SIDES]
    block = sides if len(sides) > 1 else []
    told = [_told(q, unit) for q in goods.amount if q not in block and q.kind != "count"]
    return "; ".join([*([sizes(block, unit)] if block else []), *told])


def _told(quantity: Quantity, unit: Unit) -> str:
    lone = quantity.kind in ("length", "rule", "calliper", "run")
    return f"{quantity.label.lower()} {shown(quantity, unit)}" if lone else shown(quantity, unit)
