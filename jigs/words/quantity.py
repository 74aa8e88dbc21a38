"""A number with its name: what is set, checked, read or told, in one shape from the plan to every telling."""

from __future__ import annotations

from typing import Literal

from geometry.records import dataclass
from jigs.words.lengths import Bound

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


@dataclass(frozen=True)
class Quantity:
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
