"""How many pieces are cut beyond those of the work."""

from __future__ import annotations

from math import ceil

from jigs.asked.job import Job


def spare_pieces(job: Job, count: int) -> int:
    """A share of the pieces of one size, rounded up, and no fewer than the least."""
    wish = job.workshop.spares
    return max(wish.least, ceil(count * wish.segments / 100 - 1e-9))
