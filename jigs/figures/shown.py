"""Which picture an operation shows."""

from __future__ import annotations

import re

# Operation to picture; that of the second and third of a kind ("-2", "-3") is the first's where it has none of its own.
SHOWN = {
    "boards.rip": "boards.rip",
    "building.segment-carrier": "building.segment-carrier",
    "building.segment-carrier-stop": "building.segment-carrier",
    "segments.tilt": "segments.tilt",
    "segments.stop": "segments.stop",
    "building.ring-sled": "building.ring-sled",
    "wedge_rings.set": "wedge_rings.side",
    "building.ring-sled-jaw": "wedge_rings.side",
    "building.ring-sled-rod": "wedge_rings.plug",
    "wedge_rings.plug": "wedge_rings.plug",
    "building.truing-carrier": "glue_up.truing",
    "glue_up.true-halves": "glue_up.truing",
    "building.support-boards": "mounting.A",
    "building.retainer": "mounting.D",
    "building.braces": "mounting.C",
    "building.mouth-plug": "vessel.reversed",
    "wedge_rings.first": "wedge_rings.first",
    "wedge_rings.second": "wedge_rings.second",
    "wedge_rings.ends": "wedge_rings.ends",
    "first_mounting.glue": "mounting.A",
    "roughing.sizes": "mounting.A",
    "reversed_mounting.reverse": "mounting.B",
    "reversed_mounting.turn-away": "mounting.B",
    "braced_mounting.seat": "mounting.C",
    "braced_mounting.turn": "mounting.C",
    "last_mounting.retainer": "mounting.D",
    "last_mounting.turn": "mounting.D",
    "waste_block.ring-1": "vessel.first-mounting",
    "outside.round": "vessel.first-mounting",
    "flat_rings.true": "flat_rings.true",
    "reversing.held": "vessel.reversed",
}
_NUMBER = re.compile(r"-\d+$")
OWN = re.compile(  # those that have pictures of their own, of the same id
    r"building\.(flat-sled-n\d+(-holds)?|stave-sled|segment-carrier-holds)|flat-segments\.sled(-\d+)?"
    r"|staves\.edge-[12]|gauging\..+|wedge_rings\.trial|first_mounting\.board|reversed_mounting\.retainer"
    r"|braced_mounting\.channel|reversing\.plug|roughing\.flats(-\d+)?|(outside|inside)\.(stage-\d+|finished)"
)


def figure_of(operation: str) -> str:
    """The id of the picture that an operation shows; "" where it has none."""
    if OWN.fullmatch(operation):
        return operation
    return SHOWN.get(operation) or SHOWN.get(_NUMBER.sub("", operation), "")
