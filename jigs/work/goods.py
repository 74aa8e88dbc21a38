"""The shopping list: what all operations use up, by id, and what it costs; no price is guessed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import ceil, prod

from geometry.records import replace
from jigs.asked.job_shop import Workshop
from jigs.asked.job_wood import Prices
from jigs.words.quantity import Kind, Quantity
from jigs.work.hardware import slug
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
NOT_BOUGHT = ("clamps", "tools", "in stock")  # they are there, or are tools
SIDES = ("thickness", "width", "length")


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
    summed = [replace(one, amount=tuple(_whole(q) for q in one.amount if q.value)) for one in found.values()]
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


def priced(goods: Iterable[Goods], workshop: Workshop) -> tuple[Goods, ...]:
    """Each with its cost, where there is a price for it."""
    return tuple(one if one.group in NOT_BOUGHT else replace(one, cost=_cost(one, workshop)) for one in goods)


def cost_facts(goods: Iterable[Goods], currency: str) -> tuple[Quantity, ...]:
    """The sum of all costs, in the currency that a file states, and whether it is that of all; nothing without one."""
    bought = [one.cost for one in goods if one.group not in NOT_BOUGHT]
    known = [cost for cost in bought if cost is not None]
    if not known:
        return ()
    head = f"Cost, {currency}" if currency else "Cost"
    label = head if len(known) == len(bought) else f"{head}, but for what has no price"
    return (Quantity("cost", label, sum(known), "money"),)


def _cost(goods: Goods, workshop: Workshop) -> float | None:
    """Of all of it."""
    prices, amount = workshop.prices, {q.id: float(q.value) for q in goods.amount}
    match goods.group:
        case "boards" | "plies" | "hardwood":
            return _times(_wood(goods, prices), amount["count"] * prod(amount[side] for side in SIDES))
        case "sheets":
            price = prices.board if goods.id.startswith("board.") else prices.sheet
            return _times(price, amount["area"] / prod(workshop.cutter.bed))
        case "hardware":
            return _times(prices.hardware, amount["count"])
        case "tape and linings":
            price = prices.tape if goods.id in ("tape", "waxed-paper") else prices.lining
            return _times(price, amount["count"])
        case "abrasives":
            return _times(prices.abrasive, amount["count"])
        case "filament":
            return _times(prices.filament, amount["weight"])
        case _:
            return _bottled(goods, prices, amount)


def _bottled(goods: Goods, prices: Prices, amount: Mapping[str, float]) -> float | None:
    if goods.id == "glue":
        return _times(prices.glue, amount["weight"])
    return _times(prices.finish, amount["volume"])


def _wood(goods: Goods, prices: Prices) -> float | None:
    """A mm3 of the wood in its id: "board.maple...", "hardwood.sled-runner"."""
    head, name, *_ = goods.id.split(".")
    wood = head if head == "hardwood" else name
    return next((price for of, price in prices.wood if slug(of) == wood), None)


def _times(price: float | None, amount: float) -> float | None:
    return None if price is None else price * amount
