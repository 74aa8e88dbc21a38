"""Allowances and stages that a job gets where it states none. Common practice, no source."""

from __future__ import annotations

from jigs.words.lengths import MM_PER_INCH, Unit

SMALL_ACROSS = 250.0
# Up to so wide this allowance, beyond it that one; mm.
ALLOWANCES: dict[Unit, tuple[float, float, float]] = {
    "mm": (SMALL_ACROSS, 3.0, 4.0),
    "in": (10 * MM_PER_INCH, MM_PER_INCH / 8, 5 * MM_PER_INCH / 32),
}
ALLOWANCE = (
    "3 mm up to 250 mm across, 4 mm above; in a job in inches 1/8 in up to 10 in across, 5/32 in above"
)
WIDE_DISC = 75.0  # mm across, over which the movement of a disc of wood is felt
STAGES: dict[Unit, tuple[float, ...]] = {"mm": (3.0, 1.0), "in": (MM_PER_INCH / 8, 3 * MM_PER_INCH / 64)}
USUAL_STAGES = (
    "3 mm and 1 mm where the allowance holds them, and finished; in a job in inches 1/8 in and 3/64 in where the "
    "allowance holds them, and finished"
)


def default_allowance(diameter: float, unit: Unit) -> float:
    """Turning allowance for work of this diameter, mm, in a job in this unit."""
    limit, small, large = ALLOWANCES[unit]
    return small if diameter <= limit else large


def default_stages(turning_allowance: float, sanding_allowance: float, unit: Unit) -> tuple[float, ...]:
    """Offsets of the usual stages that fit into the allowance, the finished one last, mm."""
    wanted = (stage for stage in STAGES[unit] if sanding_allowance < stage <= turning_allowance)
    return (*wanted, sanding_allowance)
