"""The closed blank on a flat table: level it, and what its scatter does to the pattern."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees
from typing import TYPE_CHECKING

import numpy as np

from geometry.measuring.harmonics import LEAST, levelled
from jigs.measured.advice import Advice, Verdict, Words, listed
from jigs.measured.since import on_board
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

TOPIC = "flattening"
READ = "first_mounting.flat.heights"
FAR = 10.0  # mm that a height may differ from the others before it is taken for a slip of the pen


def flattening_advice(plan: TorusPlan) -> Iterator[Advice]:
    """How high three of the lines that were read come to lie on shims.

    Not how thick the shims are: the flats that they go under may hang over the table already.
    """
    words = Words(plan.job.unit)
    read = [one for one in plan.job.readings.each(READ) if one is not None]
    if not read or on_board(plan.job.readings):
        return
    if len(read) < LEAST:
        says: tuple[str, ...] = (f"{len(read)} heights are read; {LEAST} at equal angles are needed.",)
        yield Advice(f"{TOPIC}.too-few", TOPIC, "unclear", (), says)
        return
    heights = np.array([one.value for one in read])
    if np.abs(heights - np.median(heights)).max() > FAR:
        says = ("One height is far from the others: read it again.",)
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", (), says)
        return
    found = levelled(heights, read[0].accuracy)
    scatter = float(np.ptp(found.scatter))
    raised = {at + 1: float(found.lifted[at]) for at in found.supports}
    told = (
        Quantity("tilt", "The middle lies aslant by, highest over the mean", found.tilt, "calliper"),
        *(
            Quantity(f"line.{line}", f"Raise line {line} to, over the table", mm, "calliper")
            for line, mm in raised.items()
        ),
        Quantity("scatter", "Left then, from lowest to highest", scatter, "calliper"),
    )
    sure = 2 * found.tilt > found.accuracy
    verdict: Verdict = "correct" if sure else "right"
    places = listed([f"line {line} at {words.fine(mm)}" for line, mm in raised.items()])
    says = (
        f"The pencil line is highest {degrees(found.highest):.0f}° round from the first height, as you counted."
        if sure
        else f"The pencil line is level to {words.fine(found.accuracy)}, which is all that you can measure.",
        f"Lay the blank on shims under three flats until the pencil lines, counted as you read them, stand so over the "
        f"table: {places}. Scribe the flats that look up at one height over the table, sand them down to that line, "
        "and glue those to the first board."
        if sure
        else "Sand its flats as it lies.",
        f"The line still scatters over {words.fine(scatter)}: from ring to ring the pattern steps up and down by as "
        "much at most.",
    )
    yield Advice(f"{TOPIC}.level", TOPIC, verdict, told, says)
