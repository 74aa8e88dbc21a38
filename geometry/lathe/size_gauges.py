"""Forks and sticks that slide over a torus to its widest place, one step for each stage.

Sizes are the tube's, falling from stage to stage; heights are measured from the tube's centre,
away from the board. Lengths mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import sqrt

from geometry.bodies.tube import Tube

PAST = 3.0  # mm that a step slides past the widest place
LEAST_STEP = 7.0  # mm long, to be numbered
BAND = 10.0  # mm, width of one step of a stick across the rim
# Half such a stick is as wide as this share of the rim's radius at most: its ends are arcs of the rim.
STICK_SHARE = 0.75


def shoulder_height(size: Tube, following: Tube) -> float:
    """How high on a tube of one size the shoulder of the next, smaller one comes to rest."""
    return size.height_at(following.wide)


def step_lengths(sizes: Sequence[Tube], past: float = PAST) -> tuple[float, ...]:
    """Length of each step but the last: from past the widest place up to where the next shoulder rests."""
    return tuple(max(shoulder_height(a, b) + past, LEAST_STEP) for a, b in pairwise(sizes))


def reach(sizes: Sequence[Tube], past: float = PAST) -> float:
    """How far past the tube's centre the tips stand when the last step has reached it."""
    return sum(step_lengths(sizes, past)) + past


def groups(sizes: Sequence[Tube], room: float, past: float = PAST) -> tuple[tuple[int, ...], ...]:
    """Numbers of the sizes that share one gauge, as many as reach no farther than `room`, one at least."""
    found: list[list[int]] = []
    for k, size in enumerate(sizes):
        if found and reach([*(sizes[i] for i in found[-1]), size], past) <= room:
            found[-1].append(k)
        else:
            found.append([k])
    return tuple(tuple(group) for group in found)


def most_steps(radius: float) -> int:
    """How many steps a stick across a rim of this radius has at most."""
    return int(2 * STICK_SHARE * radius / BAND)


def plate_sagitta(radius: float, thickness: float) -> float:
    """How far short of a hole's wall a flat plate across it stops: its two arrises touch, not its middle.

    Raises ValueError for a plate thicker than the hole is wide.
    """
    if not thickness < 2 * radius:
        raise ValueError(f"a plate of {thickness:.6g} mm does not enter a hole {2 * radius:.6g} mm across")
    return radius - sqrt(radius**2 - (thickness / 2) ** 2)
