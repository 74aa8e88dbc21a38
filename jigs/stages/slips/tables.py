"""Strips between the segments of a torus: what errors of their thickness do, and how the wood beside them moves."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.blanks.strips import across_flats_off, half_step, light_in_all
from jigs.asked.woods import SPECIES
from jigs.forms.torus.plan import TorusPlan
from jigs.words.lengths import Unit, show_length
from jigs.words.quantity import Quantity, calliper
from jigs.work.model import Table, listed

OUT: dict[Unit, float] = {"mm": 0.1, "in": 0.1016}  # mm


def strip_tables(plan: TorusPlan) -> Sequence[Table]:
    """None without strips."""
    blank = plan.blank
    if not blank.spacer:
        return ()
    n = blank.segments
    off = OUT[plan.job.unit]
    one = half_step([off, *(0.0 for _ in range(n // 2 - 2))])
    return (
        listed(
            "strips",
            f"Strips between segments, and what {show_length(off, plan.job.unit, exact=True)} costs",
            (
                calliper("thickness", "Thickness of each", blank.spacer),
                calliper("joint", "From the core's corner to the outer corner", blank.joint_depth),
                Quantity("joints", "Glued faces in each ring", 2 * n, "count"),
                calliper(
                    "across", "All too thick: wider across the flats, still closed", across_flats_off(off, n)
                ),
                calliper("half", "One too thick: ends of its half out of line, which truing takes", abs(one)),
                calliper(
                    "taper",
                    "All tapered: light at their thin side, all joints together",
                    light_in_all(off, n),
                ),
                *_moves(plan),
            ),
        ),
    )


def _moves(plan: TorusPlan) -> tuple[Quantity, ...]:
    """By the tangential coefficient, the larger; a strip's grain runs along the joint, where it hardly moves."""
    known = [SPECIES[name].tangential for ring in plan.species for name in ring if name in SPECIES]
    if not known:
        return ()
    label = "For each per cent of moisture the segments move along a strip, and it does not, by"
    return (calliper("moves", label, plan.blank.joint_depth * max(known)),)
