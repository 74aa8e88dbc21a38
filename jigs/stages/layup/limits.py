"""What a layup keeps to, whoever asks."""

from __future__ import annotations

from math import radians

from jigs.asked.job_wood import LayupWish

LEAST_ANGLE = radians(
    15
)  # of the plies to the blade; below it cut and fence get too long to hold. Common practice


def makes_sense(wish: LayupWish) -> bool:
    """Whether a segment can be mirrored so: not about the direction in which the pattern runs through it."""
    if wish.plane == "end":
        return wish.mirrored in ("none", "up and down")
    return wish.plane == "flat" or wish.mirrored in ("none", "left and right")
