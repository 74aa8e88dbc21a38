"""What the steps of several stages say alike, and how operations of one kind are numbered."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.parts.part import Part
from jigs.work.model import Reading

DRY_RING = (
    Reading("ring.light-at-rim", "Light at the rim, all joints together", by="feeler"),
    Reading("ring.light-at-core", "Light at the core, all joints together", by="feeler"),
    Reading(
        "half.light-at-rim",
        "Half of it on a straight edge: light at the rim, both ends together",
        by="feeler",
    ),
    Reading("half.light-at-core", "The same at the core, both ends together", by="feeler"),
)
PLATE = (
    "Lay one end of a segment along an edge of the joint plate, its inner edge at the plate's wide end; calliper "
    "across both near each edge of the segment: both readings agree"
)
COAT = (
    "Wipe off all dust; wet a cloth with the finish and spread it thinly.",
    "Wipe off what has not soaked in before it turns sticky.",
    "Let each coat dry as its maker says; rub with the finest grit between coats.",
    "Spread the rags out to dry outdoors at once.",
)
MOST = 16  # kinds of parts told in one step


def nth(number: int) -> str:
    """What an id ends in: nothing for the first of its kind, then "-2", "-3"."""
    return "" if number == 1 else f"-{number}"


def by_page(parts: Sequence[Part]) -> Iterator[tuple[str, Sequence[Part]]]:
    """As many as one step tells, in their order, with what its id ends in."""
    return ((nth(1 + k // MOST), parts[k : k + MOST]) for k in range(0, len(parts), MOST))
