"""The wedge on the sled's fence, and the thinner one for the ends of halves."""

from __future__ import annotations

from math import cos, degrees, tan

import numpy as np

from geometry.hardware.draw_rod import NUT_PLAY
from geometry.plane.contour import circle, polygon
from geometry.readback.free_edge import FreeEdge
from geometry.records import replace
from geometry.strokes.lettering import text_width
from jigs.parts.codes import code_of
from jigs.parts.part import Bore, Dimension, Lettering, Part
from jigs.parts.places import ENGRAVED, LEAST_TEXT, SAW_CAUTION, SHORT_TITLE, raised_width
from jigs.parts.plate import cut_part, middle, ring_room
from jigs.parts.probes import EdgeAngle, EdgeLength
from jigs.parts.sleds.angles import show_degrees
from jigs.plans.torus import TorusPlan

BELOW_TEXT, ABOVE_TEXT = 1.0, 0.75
LEAST_HANG, HANG_WALL = 1.2, 1.5  # radius; wood beside it
HANG = 2.5
END_ROOM = 5.0  # mm from a wedge's thick end to the blade
LONGER = 30.0  # mm more that harm no plate whose end is free


def sled_wedge(plan: TorusPlan, name: str = "sled-wedge", says: str = "SLED WEDGE") -> Part:
    """Lies on the fence in the second cut; thin end at the stop, or at its arms; thick end to the apex.

    x runs along the fence from the stop to the apex, y across, from the fence to the ring.
    """
    cut, (start, _) = plan.ring_cut, plan.sled.arm
    length = cut.bearing * cos(cut.half_wedge) + plan.job.workshop.sled.past_bearing
    thin, thick = (cut.wedge_at_stop + place * tan(cut.wedge_angle) for place in (start, length))
    corners = [(start, 0.0), (length, 0.0), (length, thick), (start, thin)]
    hang = (length - HANG - 3.0, thick / 2)
    radius = min(HANG, hang[1] - HANG_WALL)
    layers = plan.sled.wedge_layers
    marks, beside = _wedge_lettering(plan, length - 2 * HANG - 5, f"{code_of(name)} _ OF {layers}", says)
    part = cut_part(
        plan,
        name,
        "brings the ring's cut face parallel to its mid-plane for the second cut",
        polygon(corners),
        (circle(hang, radius),) if radius >= LEAST_HANG else (),
        marks,
        (
            Dimension("angle", degrees(cut.wedge_angle), EdgeAngle((length / 2, 0.0), middle(*corners[2:]))),
            Dimension("thickness at the stop", thin, EdgeLength((start, thin / 2))),
        ),
        quantity=layers,
        stack=layers,
        free=(
            FreeEdge(
                (length, thick / 2), plan.job.workshop.sled.past_bearing / 2, _room(plan, length, thick)
            ),
        ),
        loose=(hang,),
        works_to=ring_room(cut.half_wedge),
    )
    return replace(part, beside=beside, bore=_bore(plan))


def _bore(plan: TorusPlan) -> Bore:
    """For the draw rod, behind its hole in the fence; from the thin end."""
    rod = plan.sled.rod
    along = plan.sled.cut.stop - plan.sled.arm[0] - rod.fence_place
    return Bore(along, plan.blank.apothem, rod.wedge_hole, NUT_PLAY)


def _room(plan: TorusPlan, length: float, thick: float) -> float:
    """How much longer a wedge may be: short of the blade, which its thick end comes near."""
    cut = plan.ring_cut
    gap = (cut.stop - length) * tan(cut.half_wedge) - thick - END_ROOM
    return min(max(gap / (2 * tan(cut.half_wedge)), 0.0), LONGER)


def _wedge_texts(plan: TorusPlan, head: str, says: str) -> tuple[tuple[str, ...], ...]:
    """What the wedge says, from all that is worth saying to its code alone."""
    angle, title = show_degrees(plan.ring_cut.wedge_angle), plan.job.title.upper()[:SHORT_TITLE].strip()
    off = " ".join(SAW_CAUTION)
    return (
        ("← STOP, FENCE EDGE, APEX →", f"{head} {angle} {says}, RING EDGE ↑", f"{title}, {off}"),
        (f"{head}, ← STOP, RING EDGE ↑, APEX →, {off}", f"{angle} {says}, {title}"),
        (f"{head} {angle}, ← STOP, RING EDGE ↑, APEX →", f"{says}, {off}"),
        (f"{head} {angle}, ← STOP, RING EDGE ↑, APEX →", off),
        (f"{head} {angle}, ← STOP, RING EDGE ↑, APEX →, {off}",),
        (f"{head} {angle} ← STOP, RING ↑",),
        (f"{head} {angle}",),
        (head,),
        (head.partition(" ")[0],),
    )


def _wedge_lettering(
    plan: TorusPlan, length: float, head: str, says: str
) -> tuple[tuple[Lettering, ...], tuple[str, ...]]:
    """Rows along the fence edge, right-aligned, where the wedge is tall enough; and what it has no room for.

    As many as there is room for, then as large as they can be.
    """
    shop, stack = plan.job.workshop, int(head.rpartition(" ")[2])
    bold = raised_width(shop.printer) / 2 if shop.made.angles == "print" else 0.0
    full, *_ = texts = _wedge_texts(plan, head, says)
    for lines in texts:
        for height in np.arange(ENGRAVED, LEAST_TEXT - 1e-9, -0.25).tolist():
            if _rows_fit(plan, length - bold, lines, height, bold):
                rows = _rows(length - bold, lines, height, bold)
                told = any(SAW_CAUTION[0] in line for line in lines)
                return tuple(
                    replace(r, of=stack) if head in r.text else r for r in rows
                ), () if told else full
    return (), full


def _rows(length: float, lines: tuple[str, ...], height: float, bold: float) -> tuple[Lettering, ...]:
    return tuple(
        Lettering(line, (length - text_width(line, height), BELOW_TEXT + bold + i * 1.5 * height), height)
        for i, line in enumerate(lines)
    )


def _rows_fit(plan: TorusPlan, length: float, lines: tuple[str, ...], height: float, bold: float) -> bool:
    """Whether rows of strokes `bold` to either side of their middle stay on the wedge."""
    at_stop, slope = plan.ring_cut.wedge_at_stop, tan(plan.ring_cut.wedge_angle)
    for i, line in enumerate(lines):
        top = BELOW_TEXT + height * (1 + 1.5 * i) + ABOVE_TEXT + 2 * bold
        start = length - text_width(line, height) - bold
        if start < plan.sled.arm[0] + 1.5 or at_stop + start * slope < top:
            return False
    return True
