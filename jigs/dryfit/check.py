"""One check of the dry fit."""

from __future__ import annotations

from math import inf

from geometry.records import dataclass


@dataclass(frozen=True)
class Check:
    """A measured value and the limits it has to keep; lengths mm, angles degrees. `group` is what it belongs to.

    A `fault` measures nothing: the dry fit itself failed there, which says nothing about the jig.
    """

    where: str
    what: str
    value: float
    least: float = -inf
    most: float = inf
    unit: str = "mm"
    group: str = ""
    fault: bool = False

    @property
    def fits(self) -> bool:
        return self.least <= self.value <= self.most


def counted(where: str, what: str, found: int, wanted: int) -> Check:
    """As many pieces as are wanted."""
    return Check(where, what, found, wanted, wanted, "pieces")


def near(where: str, what: str, value: float, wanted: float, slack: float, unit: str = "mm") -> Check:
    """A value that has to be within `slack` of what is wanted."""
    return Check(where, what, value, wanted - slack, wanted + slack, unit)
