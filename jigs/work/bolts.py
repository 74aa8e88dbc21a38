"""Bolts as settings of an operation: how many, of which thread, how long, as they are sold."""

from __future__ import annotations

from geometry.hardware.fittings import bolt_length, called, in_inches, sunk_length
from jigs.words.lengths import MM_PER_INCH, mixed
from jigs.words.quantity import Quantity

BOLT = "bolt."  # how the ids of these settings begin


def bolts(id: str, label: str, count: int, thread: str, through: float, washers: int = 2) -> Quantity:
    """So many bolts, as long as what they go through asks for; nut and washers come to it. Through in mm."""
    length = bolt_length(thread, through, washers)
    return counted(
        id, label, count, f"{called(thread)} threaded rod" if length is None else sized(thread, length)
    )


def sunk(id: str, thread: str, count: int, through: float) -> Quantity:
    """Countersunk screws that hold something flat under a base, their nuts let into its top."""
    return counted(id, "Countersunk screws", count, sized(thread, sunk_length(thread, through)))


def counted(id: str, label: str, count: int, size: str) -> Quantity:
    """ "4 x M6 x 40" """
    return Quantity(f"{BOLT}{id}", label, f"{count} x {size}", "text")


def count_and_size(bolts: Quantity) -> tuple[int, str]:
    """Of such a setting: 4 and "M6 x 40"."""
    count, _, size = str(bolts.value).partition(" x ")
    return int(count), size


def sized(thread: str, length: float) -> str:
    """ "M6 x 40", "1/4-20 x 2 1/2 in"; the length in mm."""
    if not in_inches(thread):
        return f"{thread} x {length:g}"
    return f"{called(thread)} x {mixed(round(4 * length / MM_PER_INCH), 4)} in"
