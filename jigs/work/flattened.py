"""Rings and discs flattened by hand on abrasive, the second face parallel to the first."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.words.quantity import Quantity
from jigs.work.minutes import FLATTENED, each
from jigs.work.model import Check, Operation, Reading

FLAT = "Straight edge across both faces, three ways: no light"
RUBBED = (
    "Scribble pencil over both faces.",
    "Rub the first face on abrasive on a flat board until the pencil is gone.",
    "Rub the second face; press on the side that callipers thicker.",
)


def flattened(
    of: str,
    id: str,
    does: str,
    pieces: tuple[int, str],
    rings: tuple[int, ...],
    settings: tuple[Quantity, ...],
    checks: Sequence[Check],
    more: tuple[str, ...] = (),
    readings: Sequence[Reading] = (),
) -> Operation:
    """Both faces of so many pieces; `more` is what comes after the rubbing."""
    count, comes = pieces
    return Operation(
        f"{of}.{id}",
        "bench",
        does,
        how=(*RUBBED, *more),
        pieces=count,
        comes=comes,
        rings=rings,
        settings=settings,
        checks=tuple(checks),
        cautions=("bench",),
        readings=tuple(readings),
        minutes=each(2 * count, FLATTENED),
    )
