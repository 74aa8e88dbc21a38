"""Bolts, screws, pins and dowels: as an operation sets them, and as they are bought."""

from __future__ import annotations

from collections.abc import Iterable

from geometry.hardware.fittings import (
    Screws,
    bolt_length,
    called,
    in_inches,
    screw_number,
    sunk_length,
    washed,
)
from geometry.records import Record
from jigs.words.lengths import MM_PER_INCH, mixed
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.model import Goods

GROUP = "hardware"
BOLT = "bolt."  # how the ids of settings of bolts begin


class Hardware(Record):
    """Told in an operation by its setting; on the shopping list by its goods."""

    setting: Quantity
    goods: tuple[Goods, ...]


Setting = Quantity | Hardware


def told(settings: Iterable[Setting]) -> tuple[Quantity, ...]:
    return tuple(one.setting if isinstance(one, Hardware) else one for one in settings)


def used(settings: Iterable[Setting]) -> tuple[Goods, ...]:
    return tuple(goods for one in settings if isinstance(one, Hardware) for goods in one.goods)


def pieces(count: float) -> Quantity:
    """A share of a piece counts up to a whole one once all are summed."""
    return Quantity("count", "Pieces", count, "count")


def piece(id: str, what: str, count: int, *sizes: Quantity, again: bool = False) -> Goods:
    """So many of one kind; what `sizes` say is the same for each, so it belongs in the id."""
    return Goods(id, GROUP, what, (pieces(count), *sizes), again=again)


def slug(text: str) -> str:
    """Words as part of an id: "1/4-20 x 2 in" is "1-4-20-x-2-in"."""
    return "-".join("".join(one if one.isalnum() or one == "." else " " for one in text.lower()).split())


def counted(id: str, label: str, count: int, size: str) -> Quantity:
    """ "4 x M6 x 40" """
    return Quantity(f"{BOLT}{id}", label, f"{count} x {size}", "text")


def sized(thread: str, length: float) -> str:
    """ "M6 x 40", "1/4-20 x 2 1/2 in", as they are sold; the length in mm."""
    if not in_inches(thread):
        return f"{thread} x {length:g}"
    return f"{called(thread)} x {mixed(round(4 * length / MM_PER_INCH), 4)} in"


def bolts(
    id: str, label: str, count: int, thread: str, through: float, nut: str = "lock nut", flush: bool = False
) -> Hardware:
    """So many bolts, as long as what they go through asks for, each with its nut and two washers; or countersunk and
    with one."""
    washers = 1 if flush else 2
    length = bolt_length(thread, through, washers)
    if length is None:
        size, goods = f"{called(thread)} threaded rod", rod(thread, through, count)
    else:
        size = sized(thread, length)
        goods = bolt(size, count, nut, flush)
    return Hardware(counted(id, f"{label}, countersunk" if flush else label, count, size), (goods,))


def washed_bolts(id: str, label: str, count: int, thread: str, through: float) -> tuple[Hardware, ...]:
    """Bolts with their heads let in, and as many washers under each lock nut as bring the bolt's end to it."""
    found = washed(thread, through)
    if found is None:
        return (bolts(id, label, count, thread, through),)
    length, washers, block = found
    size = sized(thread, length)
    return (
        Hardware(
            counted(id, label, count, size),
            (
                piece(f"bolt.{slug(size)}.hexagon", f"{size} bolt, hexagon head, with lock nut", count),
                piece(f"washer.{slug(thread)}.small", f"{called(thread)} washer", count * washers),
            ),
        ),
        *(Hardware(one, ()) for one in washers_told(washers, block)),
    )


def washers_told(washers: int, block: float) -> tuple[Quantity, ...]:
    """What goes under each nut."""
    count = Quantity("washers", "Washers, each nut", washers, "count")
    return (count, ruled("nut-block", "Bored block under each washer, thick", block)) if block else (count,)


def bolt(size: str, count: int, nut: str, flush: bool = False) -> Goods:
    if flush:
        return piece(
            f"bolt.{slug(size)}.flush-{slug(nut)}", f"{size} countersunk bolt with {nut} and washer", count
        )
    return piece(f"bolt.{slug(size)}.{slug(nut)}", f"{size} bolt with {nut} and two washers", count)


PIN_OUT = 15.0  # mm of a pin to pull it by; common practice, no source
ROD_NUTS = 30.0  # mm of a rod that stands out at both ends: washers and nuts


def rod(thread: str, through: float, count: int) -> Goods:
    """Where no bolt is long enough."""
    length = ruled("length", "Long", through + ROD_NUTS)
    id = f"rod.{slug(thread)}-{length.value:.0f}"
    return piece(id, f"{called(thread)} threaded rod with two nuts and two washers", count, length)


def sunk(id: str, thread: str, count: int, through: float) -> Hardware:
    """Countersunk screws that hold something flat under a base, their nuts let into its top."""
    size = sized(thread, sunk_length(thread, through))
    goods = piece(f"sunk.{slug(size)}", f"{size} countersunk screw with nut", count)
    return Hardware(counted(id, "Countersunk screws", count, size), (goods,))


def pins(label: str, across: float, sheet: float, count: int = 1) -> Hardware:
    """Of steel, that are pushed into holes of a base and stand out over what they back; both of sheet so thick."""
    sizes = (calliper("across", "Across", across), ruled("length", "Long", 2 * sheet + PIN_OUT))
    goods = piece(f"pin.steel-{across:g}-{2 * sheet + PIN_OUT:.0f}", "steel pin", count, *sizes)
    return Hardware(calliper("pin", label, across), (goods,))


def dowels(id: str, label: str, across: float, count: int, length: float) -> Hardware:
    """Of hardwood."""
    sizes = (calliper("across", "Across", across), ruled("length", "Long", length))
    goods = piece(f"dowel.{across:g}-{length:.1f}", "hardwood dowel", count, *sizes)
    return Hardware(calliper(id, label, across), (goods,))


def faceplate_screws(screws: Screws) -> Goods:
    """The same ones hold board after board: a faceplate's thickness comes to their length in the wood."""
    sizes = (
        calliper("across", "Across", screws.across),
        ruled("depth", "In the wood at most", screws.depth, bound="most"),
    )
    id = f"screw.{screws.across:g}-{screws.depth:.1f}"
    what = f"{screw_number(screws.across)} wood screw for the faceplate".lstrip()
    return piece(id, what, screws.count, *sizes, again=True)
