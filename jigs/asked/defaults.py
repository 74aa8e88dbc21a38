"""Allowances and stages that a job gets where it states none. Common practice, no source."""

from __future__ import annotations

SMALL_ALLOWANCE, LARGE_ALLOWANCE, SMALL_ACROSS = 3.0, 4.0, 250.0
WIDE_DISC = 75.0  # mm across, over which the movement of a disc of wood is felt
USUAL_STAGES = (3.0, 1.0)


def default_allowance(diameter: float) -> float:
    """Turning allowance for work of this diameter, mm."""
    return SMALL_ALLOWANCE if diameter <= SMALL_ACROSS else LARGE_ALLOWANCE


def default_stages(turning_allowance: float, sanding_allowance: float) -> tuple[float, ...]:
    """Offsets of the usual stages that fit into the allowance, the finished one last, mm."""
    wanted = (stage for stage in USUAL_STAGES if sanding_allowance < stage <= turning_allowance)
    return (*wanted, sanding_allowance)
