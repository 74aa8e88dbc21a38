"""What a job gets where it states none and no single number will do, in mm. Common practice, no source."""

from __future__ import annotations

from jigs.words.lengths import MM_PER_INCH, Unit

# Up to so wide this allowance, beyond it that one.
ALLOWANCES: dict[Unit, tuple[float, float, float]] = {
    "mm": (250.0, 3.0, 4.0),
    "in": (10 * MM_PER_INCH, MM_PER_INCH / 8, 5 * MM_PER_INCH / 32),
}
ALLOWANCE = (
    "3 mm up to 250 mm across, 4 mm above; in a job in inches 1/8 in up to 10 in across, 5/32 in above"
)
WIDE_DISC: dict[Unit, float] = {
    "mm": 75.0,
    "in": 3 * MM_PER_INCH,
}  # across, over which a disc's movement is felt
# Across, that a bent hollowing tool passes, its shaft 6 mm or 1/4 in thick.
LEAST_NECK: dict[Unit, float] = {"mm": 10.0, "in": 3 / 8 * MM_PER_INCH}
# Across, up to which a base is made of segments round a plug where the job leaves it open, whatever their count.
PIECED: dict[Unit, float] = {"mm": 300.0, "in": 11.75 * MM_PER_INCH}
CLEAN_UPS: dict[Unit, tuple[float, float]] = {
    "mm": (1.0, 3.0),
    "in": (3 * MM_PER_INCH / 64, MM_PER_INCH / 8),
}  # over the kerf, and at least
CLEAN_UP = "kerf + 1 mm, at least 3 mm; in a job in inches kerf + 3/64 in, at least 1/8 in"
PRINTED_PLATES: dict[Unit, tuple[float, float, float]] = {
    "mm": (150.0, 4.0, 6.0),
    "in": (6 * MM_PER_INCH, 5 * MM_PER_INCH / 32, MM_PER_INCH / 4),
}  # up to so long this thickness, beyond it that one
PRINTED_PLATE = "4 mm; 6 mm over 150 mm long; in a job in inches 5/32 in; 1/4 in over 6 in long"
STAGES: dict[Unit, tuple[float, ...]] = {"mm": (3.0, 1.0), "in": (MM_PER_INCH / 8, 3 * MM_PER_INCH / 64)}
USUAL_STAGES = (
    "3 mm and 1 mm where the allowance holds them, and finished; in a job in inches 1/8 in and 3/64 in where the "
    "allowance holds them, and finished"
)


def default_allowance(diameter: float, unit: Unit) -> float:
    """Turning allowance for work of this diameter."""
    limit, small, large = ALLOWANCES[unit]
    return small if diameter <= limit else large


def default_clean_up(kerf: float, unit: Unit) -> float:
    """Wood cut off each face of a wedge ring by a saw of this kerf."""
    over, least = CLEAN_UPS[unit]
    return max(kerf + over, least)


def default_plate(longest: float, unit: Unit) -> float:
    """Thickness of a printed plate so long."""
    limit, usual, stiff = PRINTED_PLATES[unit]
    return usual if longest <= limit else stiff


def default_stages(turning_allowance: float, sanding_allowance: float, unit: Unit) -> tuple[float, ...]:
    """Offsets of the usual stages that fit into the allowance, the finished one last."""
    wanted = (stage for stage in STAGES[unit] if sanding_allowance < stage <= turning_allowance)
    return (*wanted, sanding_allowance)
