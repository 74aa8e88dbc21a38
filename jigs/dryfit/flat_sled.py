"""The sled for flat rings, whatever its stop: fences, hold-down, exit block."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin

import numpy as np

from jigs.asked.job import Job
from jigs.dryfit.bench import ANGLE, OVER, SLACK, STRAIGHT_ON, Bench, Slot, slots, tab_checks, tabs
from jigs.dryfit.files import Files
from jigs.dryfit.hold_down import Place, hold_checks
from jigs.dryfit.model import Check, Drawn, counted, near


def fence_frame(mitre: float, side: int) -> Bench:
    """Along a fence away from the blade, and from its face away from the strip."""
    c, s = float(np.cos(mitre)), float(np.sin(mitre))
    return Bench((0.0, 0.0), (-c, side * s), (s, side * c), mitre)


def fence_slots(base: Drawn, frame: Bench, side: int) -> list[Slot]:
    """The two slots of one fence; along from the blade's line at the face."""
    own = [h for h in base.holes if len(h) == 4]
    found = [
        s
        for h, s in zip(own, slots(base, frame), strict=True)
        if abs(s.turn) < 1 and h.centroid[1] * side > 0 and h.centroid[0] < 0
    ]
    return sorted((s for s in found if s.u[1] > 0), key=lambda s: s.s)


def grip_slots(base: Drawn, blade: float) -> list[Slot]:
    """The handle's, level and on the fences' side of the blade."""
    found = [s for s in slots(base, STRAIGHT_ON) if abs(s.turn) < 0.5 and s.s[1] < blade]
    return sorted(found, key=lambda s: s.s)


def fence_checks(job: Job, fence: Drawn, own: list[Slot], side: int) -> list[Check]:
    """Fences stand against the walls away from the strip."""
    name = f"{fence.name}, {'far' if side > 0 else 'near'}"
    shift = own[0].s[0] - tabs(fence)[0][0]
    spans = [(s.s[0] - shift, s.s[1] - shift) for s in own] if own else []
    half = job.workshop.boards.play / 2
    return [
        counted(name, "slots found", len(own), len(tabs(fence))),
        *(near(name, "slot's turn", s.turn, 0.0, ANGLE, "deg") for s in own),
        *(near(name, "slots in one line", s.u[1], own[0].u[1], SLACK) for s in own),
        *tab_checks(name, "tab in its slot", [(a + half, b + half) for a, b in tabs(fence)], spans, job),
    ]


def facing(name: str, at_fence: dict[int, list[Slot]]) -> list[Check]:
    """Both fences as far from the stop, so that one stop does for both."""
    starts = [[s.s[0] for s in own] for own in at_fence.values()]
    far = [own[0].u[1] for own in at_fence.values()]
    return [
        *(near(name, "far and near slot alike along", a, b, OVER) for a, b in zip(*starts, strict=True)),
        near(name, "far and near as far out", far[0], far[1], OVER),
    ]


def flat_hold_checks(job: Job, files: Files, suffix: str, wood: Sequence[tuple[float, float]]) -> list[Check]:
    """The hold-down on either fence, whose x leads along it from the blade; `wood` is (height, width) of strips."""
    heights, widths = zip(*wood, strict=True)
    fence, slide, finger = (files.drawn(f"plan-angle-{name}{suffix}") for name in ("fence", "hold", "finger"))
    clear = job.workshop.sled.clear_of_blade
    place = Place(fence, slide, (finger,), 1, 0.0, heights, max(widths), clear)
    return hold_checks(job, files, place, f"plan-angle-cam{suffix}", f"plan-angle-lever{suffix}")


def cut_ends(job: Job, at_fence: dict[int, list[Slot]], mitre: float) -> float:
    """y at which the blade has cut the strip, whichever fence it lies on: its far side at the near fence's face."""
    face = at_fence[-1][0].u[1] - job.workshop.boards.sheet
    return -(face + job.workshop.saw.kerf * sin(mitre)) / cos(mitre)
