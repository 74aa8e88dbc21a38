"""Which picture an operation shows."""

from __future__ import annotations

import re

from jigs.work.model import Operation

# Picture to operations beside one of its own id; the second and third of a kind ("-2", "-3") show the first's.
SHOWN = {
    "segments.stop": "segments.first",
    "wedge_rings.side": "wedge_rings.set building.ring-sled-jaw",
    "wedge_rings.plug": "building.ring-sled-rod",
    "glue_up.truing": "building.truing-carrier glue_up.true-halves",
    "glue_up.blank": "building.clamp-blocks glue_up.blocks",
    "flat_rings.true": "building.ring-truing flat_rings.true",
    "mounting.A": "building.support-boards first_mounting.glue",
    "mounting.D": "building.retainer last_mounting.retainer",
    "mounting.C": "building.braces braced_mounting.braces braced_mounting.seat",
    "vessel.reversed": "building.mouth-plug reversing.held reversing.foot",
    "building.glue-up-boards": "flat_rings.lay-out flat_rings.halves",
    "glue_up.halves": "glue_up.blocks-quarters",
    "mounting.B": "reversed_mounting.reverse reversed_mounting.turn-away reversed_mounting.saw",
    "building.stave-sled": "staves.sled",
    "building.slip-box": "slips.length",
    "vessel.first-mounting": "waste_block.ring-1 outside.round",
    "lid.on": "lid_pot.measure lid_fit.flange lid_on.on",
    "knob.bore": "knob.glue",
}
_SHOWS = {operation: picture for picture, several in SHOWN.items() for operation in several.split()}
_NUMBER = re.compile(r"-\d+$")
OWN = re.compile(  # those that have pictures of their own; a second ripping or ring would be another than its picture
    r"building\.(flat-sled-n\d+(-holds)?|(stave|layup|trim|plan-angle|ring)-sled(-\d+)?(-holds)?|segment-carrier(-holds)?"
    r"|layup-tray(-\d+)?|sanding-holder-[ab](-\d+)?|slip-box|glue-up-boards|truing-board|(sled|end)-wedge)"
    r"|boards\.rip|stack\.rings|rings\.halves|segments\.(tilt|stop)|wedge_rings\.(plug|trial|first|second|ends)"
    r"|flat-segments\.(sled|first)(-\d+)?|staves\.edge-[12]|layup\.(slabs|trim)(-\d+)?|gauging\..+"
    r"|glue_up\.(quarters|check-halves|halves|blank)|first_mounting\.board|reversed_mounting\.retainer"
    r"|braced_mounting\.(channel|turn)|last_mounting\.turn|reversing\.(plug|off)|knob\.(turn|bore)|roughing\.(sizes|flats(-\d+)?)"
    r"|outside\.(mark|part)|(outside|stem)\.(stage-\d+|finished)(-stations)?|([a-z]+_)?inside\.(stage-\d+|finished)"
)
THE_SAME = (  # as another operation, whose id follows from theirs
    (re.compile(r"roughing\.ellipse-(.+)"), r"gauging.\1"),
    (re.compile(r"(building\..+-(sled|carrier)(-n\d+)?(-\d+)?)-(runner|first-pass|stops?)"), r"\1"),
    (re.compile(r"layup\.(pairs|blocks|look)(-\d+)?"), r"building.layup-tray\2"),
)


def shown_by(operation: Operation) -> str:
    """The id of the picture that an operation shows; "" where it has none."""
    return figure_of(operation.id) if operation.figure is None else operation.figure


def figure_of(operation: str) -> str:
    """That of an operation which names none, by its id."""
    if OWN.fullmatch(operation):
        return operation
    for pattern, other in THE_SAME:
        if found := pattern.fullmatch(operation):
            return found.expand(other)
    return _SHOWS.get(operation) or _SHOWS.get(_NUMBER.sub("", operation), "")
