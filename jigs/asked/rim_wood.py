"""What wood stands round a height of a vessel, and how far it moves with the air's moisture."""

from __future__ import annotations

from collections.abc import Iterator

from geometry.bodies.lid_fit import RimWood
from jigs.asked.defaults import ALLOWANCES, WIDE_DISC
from jigs.asked.inside import floor_height
from jigs.asked.vessel_job import LidWish, VesselJob, by_ring
from jigs.asked.woods import SPECIES, movement


def rim_wood(job: VesselJob, wish: LidWish, low: float, high: float, width: float) -> RimWood:
    """Of a vessel between two heights, `width` wide there: solid where any of it is a disc, or stands upright.

    By the tangential coefficient, the larger; of a wood that is not known, the most of those that are. Where the
    rings' heights are chosen from boards, the most that any ring's wood would move.
    """
    numbers = list(_numbers(job, low, high))
    share = max(_tangential(name) for number in numbers for name in job.rings.woods(number))
    return RimWood(
        solid=_staves(job, low, high) or any(_solid(job, number, low) for number in numbers),
        width=width,
        shrinks=movement(1.0, share, wish.driest, wish.moisture),
        swells=movement(1.0, share, wish.moisture, wish.wettest),
    )


def _numbers(job: VesselJob, low: float, high: float) -> Iterator[int]:
    """Of the rings between two heights; of all that are listed where their heights are not known yet."""
    heights = job.rings.heights
    if not isinstance(heights, tuple):
        yield from range(
            1, 1 + max(len(job.rings.species), *(job.rings.upright or (1,)), *(job.rings.feature or (1,)))
        )
        return
    bottom, number = -job.rings.turning_allowance, 1
    while bottom < high:
        top = bottom + by_ring(heights, number)
        if top > low:
            yield number
        bottom, number = top, number + 1


def _solid(job: VesselJob, number: int, low: float) -> bool:
    """Whether a ring is one piece: upright, or a disc that closes over the middle."""
    if number in (job.rings.upright or ()):
        return True
    heights = job.rings.heights
    if isinstance(heights, tuple):
        low = sum(by_ring(heights, k) for k in range(1, number)) - job.rings.turning_allowance
    if low >= floor_height(job) or job.rings.base == "floating":
        return False
    if job.rings.base is not None:
        return job.rings.base == "solid"
    outer = job.outside.profile
    widest = 2 * outer.radii(outer.bottom, outer.top)[1]
    return not WIDE_DISC[job.unit] < widest <= ALLOWANCES[job.unit][0]


def _staves(job: VesselJob, low: float, high: float) -> bool:
    """Whether staves stand there: their grain runs along the axis, and so they move round it."""
    return job.staves is not None and job.staves.low < high and low < job.staves.high


def _tangential(name: str) -> float:
    known = SPECIES.get(name)
    return known.tangential if known else max(wood.tangential for wood in SPECIES.values())
