"""Strips in the joints of a torus: what errors of their thickness do, and how the wood beside them moves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import sin

from geometry.blanks.out_of_true import across_flats_off, half_step, light_in_all
from jigs.asked.woods import SPECIES, tangential_of
from jigs.plans.torus import TorusPlan
from jigs.words.lengths import Unit, show_length
from jigs.words.quantity import Quantity, calliper
from jigs.work.model import Table, listed

OUT: dict[Unit, float] = {"mm": 0.1, "in": 0.1016}  # mm


def strip_tables(plan: TorusPlan) -> Sequence[Table]:
    """None without strips."""
    off = show_length(OUT[plan.job.unit], plan.job.unit, exact=True)
    found = (
        ("strips", "segments", plan.blank.spacer, _between_segments),
        ("ring-strips", "rings", plan.blank.ring_spacer, _between_rings),
    )
    return [
        listed(
            id,
            f"Strips between {where}, and what {off} costs",
            (calliper("thickness", "Thickness of each", thick), *told(plan)),
        )
        for id, where, thick, told in found
        if thick
    ]


def _between_segments(plan: TorusPlan) -> Iterator[Quantity]:
    blank, off = plan.blank, OUT[plan.job.unit]
    n = blank.segments
    one = half_step([off, *(0.0 for _ in range(n // 2 - 2))])
    yield calliper("joint", "From the core's corner to the outer corner", blank.joint_depth)
    yield Quantity("joints", "Glued faces in each ring", 2 * n, "count")
    yield calliper("across", "All too thick: wider across the flats, still closed", across_flats_off(off, n))
    yield calliper("half", "One too thick: ends of its half out of line, which truing takes", abs(one))
    yield calliper(
        "taper", "All tapered: light at their thin side, all joints together", light_in_all(off, n)
    )
    yield from _moves(plan, blank.joint_depth)


def _between_rings(plan: TorusPlan) -> Iterator[Quantity]:
    """Like those between segments; what a strip parts lies on both sides of the axis."""
    blank, off = plan.blank, OUT[plan.job.unit]
    rings = blank.wedge_rings
    one = half_step([off, *(0.0 for _ in range(rings // 2 - 2))])
    yield calliper("joint", "From hole to rim", 2 * blank.half_width)
    yield Quantity("joints", "Glued faces in the torus", 2 * rings, "count")
    yield calliper(
        "centre", "All too thick: each ring farther from the axis", off / 2 / sin(blank.half_wedge)
    )
    yield calliper("half", "One too thick: ends of its half out of line, which truing takes", abs(one))
    yield calliper(
        "taper", "All tapered: light at their thin side, all joints together", light_in_all(off, rings)
    )
    yield from _moves(plan, 2 * blank.half_width)


def _moves(plan: TorusPlan, across: float) -> Iterator[Quantity]:
    """By the tangential coefficient, the larger; along its own grain, which lies this way, a strip hardly moves."""
    woods = {name for ring in plan.species for name in ring}
    guess = "" if woods <= SPECIES.keys() else " (as the liveliest wood known here)"
    label = (
        f"For each per cent of moisture the wood beside a strip moves along it{guess}, and it does not, by"
    )
    yield calliper("moves", label, across * max(map(tangential_of, woods)))
