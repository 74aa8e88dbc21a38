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
}
_NUMBER = re.compile(r"-\d+$")


def figure_of(operation: str) -> str:
    """The id of the picture that an operation shows; "" where it has none."""
    return SHOWN.get(operation) or SHOWN.get(_NUMBER.sub("", operation), "")
