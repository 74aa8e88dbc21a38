"""The shopping list: what all operations use up, by id."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from geometry.records import replace
from jigs.words.quantity import Kind, Quantity
from jigs.work.model import Goods, Operation

GROUPS = (
    "boards",
    "plies",
    "sheets",
    "hardwood",
    "hardware",
    "abrasives",
    "tape and linings",
    "glue and finish",
    "filament",
    "clamps",
    "tools",
    "in stock",  # nothing to buy
)
ADD_UP: tuple[Kind, ...] = ("count", "spread", "timber", "liquid", "run", "weight")


def goods_of(operations: Iterable[Operation], whole: Iterable[Goods] = ()) -> tuple[Goods, ...]:
    """Each once, by group; in a group as they are first met. `whole` is of the whole work, no one operation's.

    What one operation uses up the next cannot have; what comes free again counts as often as the operation that needs
    most of it.
    """
    found: dict[str, Goods] = {}
    for used in (*(operation.uses_up for operation in operations), tuple(whole)):
        for goods in together(used):
            before = found.get(goods.id)
            found[goods.id] = (_most if before.again else _sum)(before, goods) if before else goods
    summed = [replace(goods, amount=tuple(map(_whole, goods.amount))) for goods in found.values()]
    return tuple(sorted(summed, key=lambda goods: GROUPS.index(goods.group)))


def together(goods: Iterable[Goods]) -> tuple[Goods, ...]:
    """Those of one operation, each id once: there all of them are in use at a time."""
    found: dict[str, Goods] = {}
    for one in goods:
        found[one.id] = _sum(found[one.id], one) if one.id in found else one
    return tuple(found.values())


def _sum(first: Goods, second: Goods) -> Goods:
    both = zip(first.amount, second.amount, strict=True)
    return replace(first, amount=tuple(_added(a, b) for a, b in both))


def _added(one: Quantity, other: Quantity) -> Quantity:
    if one.kind not in ADD_UP:
        return one
    return replace(one, value=float(one.value) + float(other.value))


def _most(first: Goods, second: Goods) -> Goods:
    both = zip(first.amount, second.amount, strict=True)
    amount = tuple(max(a, b, key=lambda q: float(q.value)) if a.kind in ADD_UP else a for a, b in both)
    return replace(first, amount=amount)


def _whole(quantity: Quantity) -> Quantity:
    """A count of things that are bought whole."""
    return (
        replace(quantity, value=ceil(float(quantity.value) - 1e-9)) if quantity.kind == "count" else quantity
    )
