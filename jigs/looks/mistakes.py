"""Mistakes of the work, put in on request, so that a turner sees which of them show."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import numpy as np

from geometry.bodies.flat_rings import FlatRing
from geometry.bodies.torus import Blank
from geometry.plane.edges import FloatArray
from geometry.records import Record, replace
from jigs.plans.plan import Plan, Shown
from jigs.words.findings import Finding

MOST_OF_RING = 0.25  # of the thinnest ring's thickness that a ring may be out by
MOST_OF_PIECE = 0.5  # of a layup piece's shorter side
MOST_OF_FORM = 0.05  # of the finished form's largest diameter that it may be mounted off centre


class Mistakes(Record):
    """Lengths in mm; 0 is none."""

    ring_size: float = 0.0  # most by which a ring is too thick or too thin, a torus's at the rim
    layup_off: float = 0.0  # by which the seams of a layup lie off the middle
    off_centre: float = 0.0  # by which the blank's middle stood off the lathe's axis
    seed: int = 1  # of the rings' sizes, which are even between the most and the least

    @property
    def any(self) -> bool:
        return bool(self.ring_size or self.layup_off or self.off_centre)

    @property
    def shift(self) -> tuple[float, float]:
        """From the finished form's axis to the blank's."""
        return self.off_centre, 0.0

    def sizes(self, rings: int) -> FloatArray:
        """By how much each ring is out, (rings,)."""
        return self.ring_size * np.random.default_rng(self.seed).uniform(-1.0, 1.0, rings)


def torus_joints(blank: Blank, mistakes: Mistakes) -> FloatArray | None:
    """Angles (N,) of the joints of wedge rings of slightly different size, which still close; None without."""
    if not mistakes.ring_size:
        return None
    angles = blank.thick_edge + mistakes.sizes(blank.wedge_rings)
    ends = np.cumsum(angles) * (2 * pi / angles.sum())
    return np.asarray(ends - ends[0] / 2)  # the first ring about angle 0


def rings_out(rings: Sequence[FlatRing], mistakes: Mistakes) -> tuple[FlatRing, ...]:
    """Rings of a stack with heights slightly different, each on the one below it."""
    if not mistakes.ring_size:
        return tuple(rings)
    heights = np.array([one.height for one in rings]) + mistakes.sizes(len(rings))
    bottoms = rings[0].bottom + np.cumsum(heights) - heights
    pairs = zip(rings, bottoms.tolist(), heights.tolist(), strict=True)
    return tuple(replace(one, bottom=bottom, height=height) for one, bottom, height in pairs)


def mistake_findings(plan: Plan, mistakes: Mistakes) -> list[Finding]:
    """What cannot be put in, and what can."""
    found = [
        _limit(plan, "ring-size", mistakes.ring_size, plan.thinnest_ring * MOST_OF_RING),
        _limit(plan, "layup-off", mistakes.layup_off, _shortest(plan) * MOST_OF_PIECE),
        _limit(plan, "off-centre", mistakes.off_centre, plan.across * MOST_OF_FORM),
    ]
    return [finding for finding in found if finding is not None]


def said(plan: Shown, mistakes: Mistakes) -> tuple[str, ...]:
    """What was put in, in words."""
    rows = (
        (mistakes.ring_size, f"rings up to {{}} too thick or too thin (seed {mistakes.seed})"),
        (mistakes.layup_off, "the layup {} out"),
        (mistakes.off_centre, "mounted {} off centre"),
    )
    return tuple(text.format(plan.job.show(size)) for size, text in rows if size)


def _limit(plan: Plan, option: str, size: float, most: float) -> Finding | None:
    if size and option == "layup-off" and not plan.layups:
        return Finding(
            "no-layup", "--layup-off: the job has no layup", "leave it out, or add a [layup] to the job"
        )
    if 0.0 <= size <= most:
        return None
    message = f"--{option}: {plan.job.show(size)} is not from 0 to {plan.job.show(most)}"
    sign = "" if size > 0 else " and no minus"
    return Finding("out-of-range", message, f"use at most {plan.job.show(most)}{sign}, or leave it out")


def _shortest(plan: Plan) -> float:
    return min((min(one.layup.a, one.layup.b) for one in plan.layups), default=0.0)
