"""The jigs of a patterned layup: what the drawn sleds cut, and whether tray and holders are for these pieces."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from jigs.asked.job import Job
from jigs.asked.job_wood import LayupWish
from jigs.dryfit.check import Check
from jigs.dryfit.files import Files
from jigs.dryfit.layup_sides import SIDE, Sides
from jigs.dryfit.layup_sleds import blade_at, fence_frame, sled_checks, trim_checks
from jigs.dryfit.layup_tray import holder_checks, tray_checks

DRAWN = ("layup-base", "layup-trim-base", "layup-tray")  # whose lines are gone by


def layup_checks(job: Job, files: Files, wanted: Sequence[Sides]) -> list[Check]:
    """Every layup's jigs; each size that is wanted has some, and each of them is for one that is wanted."""
    wish = job.layup
    if wish is None:
        return []
    made = [(end, _stops(files, end)) for end in endings(files)]
    return [
        *_all_there(made, wanted),
        *(check for end, sizes in made for check in _checks(job, wish, files, end, _nearest(sizes, wanted))),
    ]


def endings(files: Files) -> list[str]:
    """What the names of each layup's parts end with."""
    found = (re.fullmatch(r"layup-base(-\d+)?", name) for name in files.names())
    return [match[1] or "" for match in found if match]


def _stops(files: Files, end: str) -> tuple[float, float]:
    """a and b by the square stops: from the blade to their edge."""
    blade = blade_at(files.drawn(f"layup-trim-base{end}"), "blade, piece's side")
    a, b = (files.drawn(f"layup-square-stop-{side}{end}").outline.bounds[2] for side in "ab")
    return blade - a, blade - b


def _nearest(sizes: tuple[float, float], wanted: Sequence[Sides]) -> Sides:
    return min(wanted, key=lambda one: _apart(sizes, one))


def _apart(sizes: tuple[float, float], one: Sides) -> float:
    return max(abs(sizes[0] - one.a), abs(sizes[1] - one.b))


def _all_there(made: list[tuple[str, tuple[float, float]]], wanted: Sequence[Sides]) -> Iterator[Check]:
    for end, sizes in made:
        yield Check(
            f"layup-trim-base{end}", "stops off the pieces", _apart(sizes, _nearest(sizes, wanted)), 0.0, SIDE
        )
    for one in wanted:
        off = min((_apart(sizes, one) for _, sizes in made), default=float("nan"))
        yield Check("layup", f"jigs for pieces of {one.a:.2f} x {one.b:.2f}, off by", off, 0.0, SIDE)


def _checks(job: Job, wish: LayupWish, files: Files, end: str, piece: Sides) -> list[Check]:
    angle = fence_frame(files.drawn(f"layup-base{end}"), "blade, slab's side", job).angle
    return [
        *sled_checks(job, wish, files, end, piece),
        *trim_checks(job, files, end, angle, piece),
        *tray_checks(job, wish, files, end, piece),
        *holder_checks(files, end, piece),
    ]
