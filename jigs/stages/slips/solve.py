"""The box for slips, which are cut to length by hand."""

from __future__ import annotations

from collections.abc import Iterable

from jigs.asked.job import Job
from jigs.stages.boards.plan import Lot
from jigs.stages.slips.layout import SlipBox


def slip_box(job: Job, lots: Iterable[Lot]) -> SlipBox | None:
    """For all slips of a job; None where it has none."""
    slips = [lot for lot in lots if lot.slip]
    if not slips:
        return None
    lengths, boards = [lot.longer for lot in slips], job.workshop.boards
    tallest = max(lot.high for lot in slips)
    return SlipBox(max(lengths), min(lengths), tallest, boards.sheet, boards.play)
