"""What the shopping list costs, by the prices of the workshop file; nothing is guessed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import prod

from geometry.records import replace
from jigs.asked.job_shop import Workshop
from jigs.asked.job_wood import Prices
from jigs.words.quantity import Quantity
from jigs.work.hardware import slug
from jigs.work.model import Goods

NOT_BOUGHT = ("clamps", "tools", "in stock")  # they are there, or are tools
SIDES = ("thickness", "width", "length")


def priced(goods: Iterable[Goods], workshop: Workshop) -> tuple[Goods, ...]:
    """Each with its cost, where there is a price for it."""
    return tuple(one if one.group in NOT_BOUGHT else replace(one, cost=_cost(one, workshop)) for one in goods)


def facts(goods: Iterable[Goods], currency: str) -> tuple[Quantity, ...]:
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
