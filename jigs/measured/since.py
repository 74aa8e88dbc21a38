"""What is glued by now, as later readings show: what was read before is not corrected in that wood any more."""

from __future__ import annotations

from jigs.asked.readings.readings import Readings
from jigs.measured.glued import stated_rings

ON_BOARD = (
    "first_mounting.glue.", "gauging.", "sanding.", "reversed_mounting.", "braced_mounting.", "last_mounting."
)  # fmt: skip
JOINED = ("first_mounting.", *ON_BOARD)
GLUED = ("glue_up.check-halves.", "glue_up.true-halves.", *JOINED)


def rings_glued(readings: Readings) -> bool:
    """Whether the wedge rings are glued into halves; not where others are still to be cut beside those that stay."""
    return _read(readings, GLUED) and not stated_rings(readings)


def halves_joined(readings: Readings) -> bool:
    """Whether the halves are glued into the blank."""
    return _read(readings, JOINED)


def on_board(readings: Readings) -> bool:
    """Whether the blank is glued to the first board."""
    return _read(readings, ON_BOARD)


def _read(readings: Readings, stages: tuple[str, ...]) -> bool:
    return any(id.startswith(stages) for id in readings.entries)
