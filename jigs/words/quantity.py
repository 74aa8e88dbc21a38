"""A number with its name: what is set, checked, read or told, in one shape from plan to tellings; and counts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from geometry.records import Record
from jigs.words.lengths import Bound


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


# A length is set by a fence or a stop, told by a rule or a tape ("rule"), or measured by a calliper or a dial
# ("calliper"): that is how fine it is shown.
Kind = Literal[
    "length",
    "rule",
    "calliper",
    "angle",
    "count",
    "area",
    "volume",
    "spread",
    "timber",
    "liquid",
    "run",
    "weight",
    "ratio",
    "share",
    "force",
    "torque",
    "minutes",
    "hours",
    "days",
    "speed",
    "money",
    "text",
    "rings",
]


class Quantity(Record):
    """`id` never changes, whatever the label says; what changed is found by it.

    "spread" is an area of boards and sheets, "timber" a volume of boards, "liquid" one of what is poured, "run" a
    length of what is on a roll, each told in the unit in which it is sold.

    The value is in mm, radians, mm2, mm3, g, N, N m, minutes, hours, days or rpm, a share from 0 to 1, or words;
    "rings" is for columns of tables, whose cells are the numbers of rings. `bound` is "least" or "most" where the value
    is a limit, which rounding must not break.
    """

    id: str
    label: str
    value: float | int | str
    kind: Kind = "length"
    bound: Bound = ""


def calliper(id: str, label: str, mm: float, bound: Bound = "") -> Quantity:
    """A length that is measured by a calliper or a dial."""
    return Quantity(id, label, mm, "calliper", bound)


def ruled(id: str, label: str, mm: float, bound: Bound = "") -> Quantity:
    """A length that is told by a rule or a tape."""
    return Quantity(id, label, mm, "rule", bound)
