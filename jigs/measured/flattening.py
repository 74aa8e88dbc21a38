"""The closed blank on a flat table: level it, and what its scatter does to the pattern."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees
from typing import TYPE_CHECKING

import numpy as np

from geometry.measuring.harmonics import LEAST, levelled, three_supports
from jigs.measured.advice import Advice, Verdict, Words
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

TOPIC = "flattening"
READ = "first_mounting.flat.heights"


def flattening_advice(plan: TorusPlan) -> Iterator[Advice]:
    """Shims under three points, the first under the first height."""
    words = Words(plan.job.unit)
    read = [one for one in plan.job.readings.each(READ) if one is not None]
    if not read:
        return
    if len(read) < LEAST:
        says: tuple[str, ...] = (f"{len(read)} heights are read; {LEAST} at equal angles are needed.",)
        yield Advice(f"{TOPIC}.too-few", TOPIC, "unclear", (), says)
        return
    # The heights are read at the rim, the flats lie farther in.
    out = plan.blank.centre / plan.blank.outer_radius
    found = levelled(np.array([one.value for one in read]), three_supports(), read[0].accuracy, out)
    scatter = float(np.ptp(found.scatter))
    told = (
        Quantity("tilt", "The middle lies aslant by, highest over the mean", found.tilt, "calliper"),
        *(
            Quantity(f"shim.{k}", f"Shim under point {k}", float(mm), "calliper")
            for k, mm in enumerate(found.shims, 1)
        ),
        Quantity("scatter", "Left then, from lowest to highest", scatter, "calliper"),
    )
    sure = bool(found.shims.max() > found.accuracy)
    verdict: Verdict = "correct" if sure else "right"
    shims = ", ".join(words.fine(float(mm)) for mm in found.shims)
    says = (
        f"The pencil line is highest {degrees(found.highest):.0f}° round from the first height, as you counted."
        if sure
        else f"The pencil line is level to {words.fine(found.accuracy)}, which is all that you can measure.",
        f"Shim the blank under the middles of three flats, at the first height and a third of a turn either way: "
        f"{shims}. Scribe the flats that look up at one height over the table, sand them down to that line, and glue "
        "those to the first board."
        if sure
        else "Sand its flats as it lies.",
        f"The line still scatters over {words.fine(scatter)}: from ring to ring the pattern steps up and down by as "
        "much at most.",
    )
    yield Advice(f"{TOPIC}.level", TOPIC, verdict, told, says)
