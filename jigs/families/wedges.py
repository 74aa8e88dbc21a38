"""Wedges and angle plates, cut from sheet. Each says which edge bears on what."""

from __future__ import annotations

from math import ceil, cos, degrees, pi, sin, tan

import numpy as np

from geometry.arcs import bulge_about
from geometry.contour import circle, polygon
from geometry.contour import outline as contour
from geometry.lettering import text_width
from jigs.families.labels import ENGRAVED, SAW_CAUTION, block_height, block_width, centred, raised_width
from jigs.families.places import NoRoom, hang_hole, lettered
from jigs.families.sheet import cut_part, middle
from jigs.lengths import show_length
from jigs.part import Dimension, EdgeAngle, EdgeLength, Lettering, Line, Part
from jigs.plan import Plan

PLATE = 100.0  # long edge of an angle plate
PLATE_MOST = 130.0
TILT_HEIGHT = 60.0
FOOT = 4.0  # clipped where the blade enters the table
LEG_WIDTH = 40.0
CORNER_RELIEF = 6.0
SMALL_TEXT, LEAST_TEXT = 3.0, 1.5
EDGE_TEXT = 4.0
BELOW_TEXT, ABOVE_TEXT = 1.0, 0.75
LEAST_HANG, HANG_WALL = 1.2, 1.5  # radius; wood beside it
WEDGE_TITLE = 12  # characters: the sled's wedge is small
HANG = 2.5


def wedges(plan: Plan) -> list[Part]:
    """The sled's wedge, the tilt plate, the joint plate and the check corner."""
    return [sled_wedge(plan), tilt_plate(plan), joint_plate(plan), check_corner(plan)]


def _degrees(angle: float) -> str:
    return f"{degrees(angle):.3f}".rstrip("0").rstrip(".") + "°"


def _baseline(text: Lettering) -> tuple[Line, ...]:
    """Stands for a line of lettering where room is looked for."""
    x, y = text.origin
    length = text_width(text.text, text.height)
    up = (-sin(text.angle) * text.height / 2, cos(text.angle) * text.height / 2)
    start = (x + up[0], y + up[1])
    return (Line((start, (start[0] + length * cos(text.angle), start[1] + length * sin(text.angle)))),)


def sled_wedge(plan: Plan) -> Part:
    """Lies on the fence in the second cut; thin end at the stop, thick end to the apex.

    x runs along the fence from the stop to the apex, y across, from the fence to the ring.
    """
    cut = plan.ring_cut
    length, thin = cut.bearing * cos(cut.half_wedge) + plan.job.workshop.sled.past_bearing, cut.wedge_at_stop
    thick = thin + length * tan(cut.half_wedge)
    corners = [(0.0, 0.0), (length, 0.0), (length, thick), (0.0, thin)]
    hang = (length - HANG - 3.0, thick / 2)
    radius = min(HANG, hang[1] - HANG_WALL)
    if radius < LEAST_HANG:
        raise _thin_wedge(plan, length)
    return cut_part(
        plan,
        "wedges",
        "sled-wedge",
        "brings the ring's cut face parallel to its mid-plane for the second cut",
        polygon(corners),
        (circle(hang, radius),),
        _wedge_lettering(plan, length - 2 * HANG - 5),
        (
            Dimension("angle", degrees(cut.half_wedge), EdgeAngle((length / 2, 0.0), middle(*corners[2:]))),
            Dimension("thickness at the stop", thin, EdgeLength((0.0, thin / 2))),
        ),
        (
            "Second cut only: thin end against the stop, towards you; thick end towards the apex.",
            "Glue the plates into one stack, edges flush; it must reach past the middle of the ring.",
            "Switch the saw off before you put it in or take it out.",
        ),
        quantity=ceil(plan.blank.apothem / plan.job.workshop.boards.sheet),
    )


def _thin_wedge(plan: Plan, length: float) -> NoRoom:
    """One row of lettering fits where its thin end is tall enough, the hole where its thick end is."""
    rise = length * tan(plan.ring_cut.half_wedge)
    least = max(BELOW_TEXT + LEAST_TEXT + ABOVE_TEXT, 2 * (LEAST_HANG + HANG_WALL) - rise)
    return NoRoom(
        "the sled's wedge is too thin for its lettering and its hanging hole",
        "form.clean_up",
        f"use a clean_up of at least {show_length(ceil(10 * least) / 10, plan.job.unit)}",
    )


def _wedge_texts(plan: Plan) -> tuple[tuple[str, ...], ...]:
    """What the wedge says, from all that is worth saying to what cannot be left out."""
    angle, title = _degrees(plan.ring_cut.half_wedge), plan.job.title.upper()[:WEDGE_TITLE].strip()
    off = " ".join(SAW_CAUTION)
    return (
        ("← STOP, FENCE EDGE, APEX →", f"{angle} SLED WEDGE, RING EDGE ↑", f"{title}, {off}"),
        (f"← STOP, RING EDGE ↑, APEX →, {off}", f"{title} {angle}"),
        (f"{angle}, ← STOP, RING EDGE ↑, APEX →", f"{title}, {off}"),
        (f"{angle}, ← STOP, RING EDGE ↑, APEX →, {off}",),
        (f"{angle} ← STOP, RING ↑",),
    )


def _wedge_lettering(plan: Plan, length: float) -> tuple[Lettering, ...]:
    """Rows along the fence edge, right-aligned, where the wedge is tall enough.

    As large as it can be with its caution; without that only where nothing else fits.
    """
    thin, angle = plan.ring_cut.wedge_at_stop, plan.ring_cut.half_wedge
    shop = plan.job.workshop
    bold = raised_width(shop.printer) / 2 if shop.made.wedges == "print" else 0.0
    *full, short = _wedge_texts(plan)
    sizes = np.arange(SMALL_TEXT, LEAST_TEXT - 1e-9, -0.25).tolist()
    for lines, height in [
        *((text, size) for size in sizes for text in full),
        *((short, size) for size in sizes),
    ]:
        if _rows_fit(length - bold, thin, angle, lines, height, bold):
            return _rows(length - bold, lines, height, bold)
    raise _thin_wedge(plan, length)


def _rows(length: float, lines: tuple[str, ...], height: float, bold: float) -> tuple[Lettering, ...]:
    return tuple(
        Lettering(line, (length - text_width(line, height), BELOW_TEXT + bold + i * 1.5 * height), height)
        for i, line in enumerate(lines)
    )


def _rows_fit(
    length: float, thin: float, angle: float, lines: tuple[str, ...], height: float, bold: float
) -> bool:
    """Whether rows of strokes `bold` to either side of their middle stay on the wedge."""
    for i, line in enumerate(lines):
        top = BELOW_TEXT + height * (1 + 1.5 * i) + ABOVE_TEXT + 2 * bold
        start = length - text_width(line, height) - bold
        if start < 1.5 or thin + start * tan(angle) < top:
            return False
    return True


def tilt_plate(plan: Plan) -> Part:
    """Stands on the saw's table; its leaning edge sets the blade's tilt, its upright edge proves 90 degrees."""
    tilt = plan.segment.tilt
    lean = TILT_HEIGHT * tan(tilt)
    title = plan.job.title.upper()
    lines = (title, f"BLADE TILT {_degrees(tilt)}", "TABLE EDGE BELOW", *SAW_CAUTION)
    width = lean + block_width(lines, ENGRAVED) + 22
    foot = (FOOT * sin(tilt), FOOT * cos(tilt))
    corners = [(FOOT, 0.0), (width, 0.0), (width, TILT_HEIGHT), (lean, TILT_HEIGHT), foot]
    outline = polygon(corners)
    hole = hang_hole(outline, (), (width, TILT_HEIGHT))
    blade = middle((lean, TILT_HEIGHT), foot)
    edge = centred("BLADE", (blade[0] + 5 * cos(tilt), blade[1] - 5 * sin(tilt)), 4.0, pi / 2 - tilt)
    return cut_part(
        plan,
        "wedges",
        "tilt-plate",
        "sets the blade's tilt for the segments",
        outline,
        (hole,),
        (*lettered(outline, (hole,), _baseline(edge), lines), edge),
        (
            Dimension("tilt from upright", degrees(tilt), EdgeAngle(blade, (width, TILT_HEIGHT / 2))),
            Dimension("table to blade", 90 - degrees(tilt), EdgeAngle((width / 2, 0.0), blade)),
        ),
        (
            "Switch off and unplug; raise the blade; let the leaning edge bear on the plate of the blade, "
            "between the teeth.",
            "The upright edge proves the blade at 90 degrees.",
        ),
    )


def joint_plate(plan: Plan) -> Part:
    """The angle between two neighbouring segments' ends, 360/n."""
    angle, thin = 2 * plan.segment.tilt, plan.job.workshop.sled.thin_end
    title = plan.job.title.upper()
    lines = (
        title,
        f"JOINT {_degrees(angle)} = 360/{plan.blank.segments}",
        "BOTH LONG EDGES BEAR",
        *SAW_CAUTION,
    )
    length = min(PLATE, (PLATE_MOST - thin) / tan(angle))
    length = max(length, block_width(lines, ENGRAVED) + 4 + _clear_of_slope(lines, angle, thin))
    thick = thin + length * tan(angle)
    outline = polygon([(0.0, 0.0), (length, 0.0), (length, thick), (0.0, thin)])
    slope = (length / 2, thin + length / 2 * tan(angle))
    hole = hang_hole(outline, (), (length, thick))
    return cut_part(
        plan,
        "wedges",
        "joint-plate",
        "the angle between the two ends of a segment; sets two fences to one another",
        outline,
        (hole,),
        lettered(outline, (hole,), (), lines),
        (Dimension("angle", degrees(angle), EdgeAngle((length / 2, 0.0), slope)),),
        ("Both long edges bear; the thin end is only there to survive the rack.",),
    )


def _clear_of_slope(lines: tuple[str, ...], angle: float, thin: float) -> float:
    """Where along the plate a block at its foot gets under the slope."""
    return max(0.0, (block_height(lines, ENGRAVED) + 7 - thin) / tan(angle))


def check_corner(plan: Plan) -> Part:
    """An inside corner whose apex is the torus axis: the glued wedge rings must fill it."""
    check = plan.check
    angle, leg = check.angle, check.leg
    side, across = (cos(angle), sin(angle)), (-sin(angle), cos(angle))
    corner = -LEG_WIDTH / sin(angle / 2)
    start, end = (CORNER_RELIEF, 0.0), (CORNER_RELIEF * side[0], CORNER_RELIEF * side[1])
    outline = contour(
        (leg, -LEG_WIDTH),
        (leg, 0.0),
        (*start, bulge_about((0.0, 0.0), start, end, ccw=False)),
        end,
        (leg * side[0], leg * side[1]),
        (leg * side[0] + LEG_WIDTH * across[0], leg * side[1] + LEG_WIDTH * across[1]),
        (corner * cos(angle / 2), corner * sin(angle / 2)),
    )
    hole = hang_hole(outline, (), (leg, -LEG_WIDTH / 2))
    edges = _ring_edges(angle, leg)
    title = plan.job.title.upper()
    lines = (title, f"{check.rings} WEDGE RINGS", f"MAKE {_degrees(angle)}", "← AXIS")
    taken = tuple(line for edge in edges for line in _baseline(edge))
    return cut_part(
        plan,
        "wedges",
        "check-corner",
        f"{check.rings} wedge rings dry together must fill it",
        outline,
        (hole,),
        (*lettered(outline, (hole,), taken, lines, near=(leg / 2, -LEG_WIDTH / 2)), *edges),
        (
            Dimension(
                "inside angle",
                degrees(angle),
                EdgeAngle((leg / 2, 0.0), (leg / 2 * side[0], leg / 2 * side[1])),
            ),
        ),
        ("Both inner edges bear on the wedge rings' faces; the relieved corner is the torus axis.",),
    )


def _ring_edges(angle: float, leg: float) -> tuple[Lettering, Lettering]:
    """Along both edges that the rings' faces bear on."""
    near, far = 0.68 * leg, 0.6 * leg
    second = (far * cos(angle) - 6 * sin(angle), far * sin(angle) + 6 * cos(angle))
    turn = angle if angle <= pi / 2 + 1e-9 else angle - pi
    return (centred("RING FACE", (near, -5.0), EDGE_TEXT), centred("RING FACE", second, EDGE_TEXT, turn))
