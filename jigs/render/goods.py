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
