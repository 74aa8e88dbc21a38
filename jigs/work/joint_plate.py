"""How a segment is held against the joint plate, which has the angle between its two ends."""

from __future__ import annotations

PLATE = (
    "Lay one end of a segment along an edge of the joint plate, its inner edge at the plate's wide end; calliper "
    "across both near each edge of the segment: both readings agree"
)
