"""Nearest values that work, as text; lengths in the job's own unit."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor

from jigs.asked.job import Job
from jigs.words.lengths import MM_PER_INCH, show_length


def largest_that_fits(fits: Callable[[float], bool], low: float, high: float, step: float = 0.1) -> float:
    """Largest multiple of `step` from `low` to `high` that fits, `fits` falling from true to false."""
    few, many = floor(low / step), ceil(high / step)
    while many - few > 1:
        middle = (few + many) // 2
        few, many = (middle, many) if fits(middle * step) else (few, middle)
    return few * step


def at_least(job: Job, mm: float) -> str:
    """A length as text, rounded up so that it still does."""
    step = _step(job)
    return show_length(ceil(mm / step - 1e-9) * step, job.unit)


def at_most(job: Job, mm: float) -> str:
    """A length as text, rounded down so that it still does."""
    step = _step(job)
    return show_length(floor(mm / step + 1e-9) * step, job.unit)


def _step(job: Job) -> float:
    return 0.1 if job.unit == "mm" else MM_PER_INCH / 64


def show_in(job: Job) -> Callable[[float], str]:
    """How this job shows a length."""
    return lambda mm: show_length(mm, job.unit)
