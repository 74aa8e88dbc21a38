"""Counts and the numbers of rings, as people read them."""

from __future__ import annotations

from collections.abc import Sequence


def count_text(count: int, one: str, many: str | None = None) -> str:
    """ "1 board", "3 boards" """
    return f"{count} {one if count == 1 else many or plural(one)}"


def plural(one: str) -> str:
    """ "halves", "batches", "rings with one face cut" """
    head, space, rest = one.partition(" with ")
    if head.endswith("half"):
        head = f"{head[:-1]}ves"
    else:
        head += "es" if head.endswith(("ch", "sh", "s", "x")) else "s"
    return f"{head}{space}{rest}"


def ring_list(rings: Sequence[int]) -> str:
    """ "ring 4", "rings 1 to 16", "rings 2, 4, 7 to 9" """
    return f"ring {runs(rings)}" if len(rings) == 1 else f"rings {runs(rings)}"


def ring_numbers(rings: Sequence[int]) -> str:
    """ "RING 4", "RINGS 4, 6" or "RINGS 4-7" """
    return f"RING{'S' if len(rings) > 1 else ''} {runs(rings, '-')}"


def runs(numbers: Sequence[int], to: str = " to ") -> str:
    """ "4", "1 to 16", "2, 4, 7 to 9" """
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return ", ".join(f"{run[0]}{to}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in found)
