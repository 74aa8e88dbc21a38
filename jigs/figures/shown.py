"""Which picture an operation shows."""

from __future__ import annotations

import re

# Operation to picture; that of the second and third of a kind ("-2", "-3") is the first's where it has none of its own.
SHOWN = {
    "building.segment-carrier": "building.segment-carrier",
    "building.segment-carrier-stop": "building.segment-carrier",
    "segments.tilt": "segments.tilt",
    "segments.stop": "segments.stop",
    "building.ring-sled": "building.ring-sled",
    "wedge_rings.set": "building.ring-sled",
    "wedge_rings.first": "wedge_rings.first",
    "wedge_rings.second": "wedge_rings.second",
    "wedge_rings.ends": "wedge_rings.second",
    "first_mounting.glue": "mounting.A",
    "roughing.sizes": "mounting.A",
    "reversed_mounting.reverse": "mounting.B",
    "reversed_mounting.turn-away": "mounting.B",
    "braced_mounting.seat": "mounting.C",
    "braced_mounting.turn": "mounting.C",
    "last_mounting.retainer": "mounting.D",
    "last_mounting.turn": "mounting.D",
}
_NUMBER = re.compile(r"-\d+$")
OWN = re.compile(
    r"building\.flat-sled-n\d+|flat-segments\.sled(-\d+)?|building\.stave-sled|staves\.edge-[12]"
)


def figure_of(operation: str) -> str:
    """The id of the picture that an operation shows; "" where it has none."""
    if OWN.fullmatch(operation):
        return operation
    return SHOWN.get(operation) or SHOWN.get(_NUMBER.sub("", operation), "")
