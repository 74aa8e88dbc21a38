"""What the coupon's readings make of sizes as drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from geometry.measuring.drawn_size import DrawnSize
from jigs.asked.job import Job
from jigs.asked.readings.readings import Readings
from jigs.words.lengths import MM_PER_INCH

if TYPE_CHECKING:
    from geometry.measuring.printer import MachineFit

READ = "coupon.read"
LEAST_PLAY = 0.02  # mm
THOU = "thou"  # behind a nominal size in thousandths of an inch


def pairs(readings: Readings, sort: str) -> list[tuple[float, float]]:
    """Nominal and measured, mm, of one sort of the coupon's lengths."""
    found = []
    for id in readings.under(f"{READ}.{sort}-"):
        read = readings.length(id)
        nominal = id.rpartition("-")[2]
        size, unit = nominal.removesuffix(THOU), MM_PER_INCH / 1000 if nominal.endswith(THOU) else 1.0
        if read is not None and size.isdigit():
            found.append((float(size) * unit, read.value))
    return found


def machine_fit(readings: Readings) -> MachineFit | None:
    """What the coupon says; None where too little of it was read."""
    outsides, insides = pairs(readings, "outside"), pairs(readings, "inside")
    if not outsides or not insides:
        return None
    from geometry.measuring.printer import LEAST, fit_machine  # few jobs have such readings

    if min(len(outsides), len(insides)) < LEAST:
        return None
    return fit_machine(outsides, insides, readings.accuracy["calliper"])


def true_play(readings: Readings, felt: float) -> float:
    """What is between tab and notch that fit, of the play that the notch was drawn with.

    The coupon is drawn as it is, and tab and notch lie on its outline: one wall errs for both. Prints that are drawn
    right need only what was there.
    """
    fit = machine_fit(readings)
    if fit is None or not fit.alike:
        return felt
    return max(LEAST_PLAY, felt - 2 * fit.outside.value)


def drawn_size(job: Job) -> DrawnSize:
    """How prints have to be drawn; as they are where nothing was read, or the coupon is not a print."""
    fit = machine_fit(job.readings) if job.workshop.made.coupon == "print" else None
    if fit is None or not fit.alike:
        return DrawnSize()
    return fit.size
