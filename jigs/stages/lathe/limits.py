"""What the lathe has to leave free. Lengths mm."""

from __future__ import annotations

SWING_CLEARANCE = (
    10.0  # of the diameter: 5 mm over the bed all round. Common practice, no source; never under 3
)
