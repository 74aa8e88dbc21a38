"""The mouth of a lid's pot as it was measured."""

from __future__ import annotations

from jigs.asked.readings.readings import Readings

MOUTH = "lid_pot.measure.mouth"
FAR = 0.1  # share of its plan by which it may differ; more is a slip of the pen


def mouths_read(readings: Readings) -> tuple[float, ...]:
    """Every diameter that was read, mm."""
    found = readings.each(MOUTH) if MOUTH in readings else ()
    return tuple(one.value for one in found if one is not None)


def is_slip(mouth: float, planned: float) -> bool:
    return abs(mouth - planned) > FAR * planned
