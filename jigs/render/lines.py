"""Quantities as lines of a label and a value, as people read them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.render.amounts import shown, sizes
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity

SIDES = ("thickness", "width", "length")


def lines(quantities: Sequence[Quantity], unit: Unit) -> Iterator[tuple[str, str]]:
    """Each a line, but for what belongs together: a count with the three sides of what is counted, which have these in
    their ids, and two numbers whose ids end in ".from" and ".to"."""
    k = 0
    while k < len(quantities):
        one, after = quantities[k], quantities[k + 1 : k + 1 + len(SIDES)]
        taken = 1
        if (
            one.kind == "count"
            and [_counted(q, side) for q, side in zip(after, SIDES, strict=False)] == [one.id] * 3
        ):
            taken += len(SIDES)
            yield one.label, f"{one.value} × {sizes(after, unit)}"
        elif one.id.endswith(".from") and after and after[0].id == f"{one.id.removesuffix('.from')}.to":
            taken += 1
            yield _between(one, after[0], unit)
        else:
            yield one.label, shown(one, unit)
        k += taken


def _counted(side: Quantity, name: str) -> str:
    """Of what it is a side, by id: "boards.1" of "boards.thickness.1"."""
    return ".".join(part for part in side.id.split(".") if part != name)


def _between(low: Quantity, high: Quantity, unit: Unit) -> tuple[str, str]:
    """ "Usual speed", "579 to 868 rpm"; "0.531 to 0.903 in", no fractions between"""
    least, most = (shown(one, unit).partition(" (")[0] for one in (low, high))
    _, space, end = most.partition(" ")
    label = low.label.removesuffix(" from").removesuffix(",")
    return label, f"{least.removesuffix(space + end) if space else least} to {most}"
