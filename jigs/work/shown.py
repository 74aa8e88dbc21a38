"""Which picture an operation shows."""

from __future__ import annotations

import re

# Operation to picture; that of the second and third of a kind ("-2", "-3") is the first's where it has none of its own.
SHOWN = {
    "boards.rip": "boards.rip",
    "building.segment-carrier": "building.segment-carrier",
    "segments.first": "segments.stop",
    "segments.tilt": "segments.tilt",
    "segments.stop": "segments.stop",
    "building.ring-sled": "building.ring-sled",
    "wedge_rings.set": "wedge_rings.side",
    "building.ring-sled-jaw": "wedge_rings.side",
    "building.ring-sled-rod": "wedge_rings.plug",
    "wedge_rings.plug": "wedge_rings.plug",
    "building.truing-carrier": "glue_up.truing",
    "glue_up.true-halves": "glue_up.truing",
    "building.clamp-blocks": "glue_up.blank",
    "building.ring-truing": "flat_rings.true",
    "building.support-boards": "mounting.A",
    "building.retainer": "mounting.D",
    "building.braces": "mounting.C",
    "building.mouth-plug": "vessel.reversed",
    "wedge_rings.first": "wedge_rings.first",
    "wedge_rings.second": "wedge_rings.second",
    "wedge_rings.ends": "wedge_rings.ends",
    "rings.halves": "rings.halves",
    "flat_rings.lay-out": "building.glue-up-boards",
    "flat_rings.halves": "building.glue-up-boards",
    "glue_up.blocks": "glue_up.blank",
    "glue_up.blocks-quarters": "glue_up.halves",
    "first_mounting.glue": "mounting.A",
    "reversed_mounting.reverse": "mounting.B",
    "reversed_mounting.turn-away": "mounting.B",
    "reversed_mounting.saw": "mounting.B",
    "braced_mounting.braces": "mounting.C",
    "braced_mounting.seat": "mounting.C",
    "last_mounting.retainer": "mounting.D",
    "staves.sled": "building.stave-sled",
    "slips.length": "building.slip-box",
    "stack.rings": "stack.rings",
    "waste_block.ring-1": "vessel.first-mounting",
    "outside.round": "vessel.first-mounting",
    "flat_rings.true": "flat_rings.true",
    "reversing.held": "vessel.reversed",
    "reversing.foot": "vessel.reversed",
    "lid_pot.measure": "lid.on",
    "lid_fit.flange": "lid.on",
    "lid_on.on": "lid.on",
    "knob.glue": "knob.bore",
}
_NUMBER = re.compile(r"-\d+$")
FIRST_ALONE = {"boards.rip", "stack.rings"}  # draws a ring of the first step of its kind, wrong at the others
OWN = re.compile(  # those that have pictures of their own, of the same id
    r"building\.(flat-sled-n\d+(-holds)?|(stave|layup|trim|plan-angle)-sled(-\d+)?(-holds)?|segment-carrier-holds"
    r"|layup-tray(-\d+)?|sanding-holder-[ab](-\d+)?|slip-box|glue-up-boards|truing-board|(sled|end)-wedge)"
    r"|flat-segments\.(sled|first)(-\d+)?|staves\.edge-[12]|layup\.(slabs|trim)(-\d+)?|gauging\..+|wedge_rings\.trial"
    r"|glue_up\.(quarters|check-halves|halves|blank)|first_mounting\.board|reversed_mounting\.retainer"
    r"|braced_mounting\.(channel|turn)|last_mounting\.turn|reversing\.(plug|off)|knob\.(turn|bore)|roughing\.(sizes|flats(-\d+)?)"
    r"|outside\.(mark|part|(stage-\d+|finished)(-stations)?)|([a-z]+_)?inside\.(stage-\d+|finished)"
)
THE_SAME = (  # as another operation, whose id follows from theirs
    (re.compile(r"roughing\.ellipse-(.+)"), r"gauging.\1"),
    (re.compile(r"(building\..+-(sled|carrier)(-n\d+)?(-\d+)?)-(runner|first-pass|stops?)"), r"\1"),
    (re.compile(r"layup\.(pairs|blocks|look)(-\d+)?"), r"building.layup-tray\2"),
)


def figure_of(operation: str) -> str:
    """The id of the picture that an operation shows; "" where it has none."""
    if OWN.fullmatch(operation):
        return operation
    for pattern, other in THE_SAME:
        if found := pattern.fullmatch(operation):
            return found.expand(other)
    first = _NUMBER.sub("", operation)
    return SHOWN.get(operation) or ("" if first in FIRST_ALONE else SHOWN.get(first, ""))
