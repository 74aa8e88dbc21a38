"""Wedges and angle plates, cut from sheet. Each says which edge bears on what."""

from __future__ import annotations

from math import cos, degrees, pi, sin

from geometry.plane.contour import outline as contour
from geometry.plane.edges import bulge_about
from geometry.readback.free_edge import FreeEdge
from jigs.parts.part import Lettering, Part
from jigs.parts.places import centred, lettered
from jigs.parts.plate import Plate
from jigs.parts.sleds.angles import baseline, joint_plate, show_degrees, tilt_plate
from jigs.parts.sleds.wedge import LONGER, sled_wedge
from jigs.plans.torus import TorusPlan
from jigs.words.quantity import count_text

LEG_WIDTH = 40.0
CORNER_RELIEF = 6.0
EDGE_TEXT = 4.0


def wedges(plan: TorusPlan) -> list[Part]:
    """The sled's wedge, the tilt plate, the joint plate and the check corner."""
    return [
        sled_wedge(plan),
        tilt_plate(plan, plan.segment.tilt),
        joint_plate(plan, plan.blank.segments),
        check_corner(plan),
    ]


def check_corner(plan: TorusPlan) -> Part:
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
    plate = Plate(plan, outline)
    plate.hang((leg, -LEG_WIDTH / 2))
    edges = _ring_edges(angle, leg)
    title, near = plan.job.title.upper(), (leg / 2, -LEG_WIDTH / 2)
    rings = count_text(check.rings, "wedge ring")
    says = (title, rings.upper(), f"MAKE {show_degrees(angle)}", "← AXIS")
    taken = [line for edge in edges for line in baseline(edge)]
    plate.words += lettered(plate.outline, plate.holes, taken, says, near)
    plate.marks += edges
    plate.angle("inside angle", degrees(angle), (leg / 2, 0.0), (leg / 2 * side[0], leg / 2 * side[1]))
    end = (leg * side[0] + LEG_WIDTH / 2 * across[0], leg * side[1] + LEG_WIDTH / 2 * across[1])
    return plate.part(
        "check-corner",
        f"{rings} dry together must fill it" if check.rings > 1 else f"{rings} must fill it",
        ("Both inner edges touch the wedge rings' faces; the relieved corner is the torus axis.",),
        free=tuple(FreeEdge(at, 3.0, LONGER) for at in ((leg, -LEG_WIDTH / 2), end)),
    )


def _ring_edges(angle: float, leg: float) -> tuple[Lettering, Lettering]:
    """Along both edges that the rings' faces bear on."""
    near, far = 0.68 * leg, 0.6 * leg
    second = (far * cos(angle) - 6 * sin(angle), far * sin(angle) + 6 * cos(angle))
    turn = angle if angle <= pi / 2 + 1e-9 else angle - pi
    return (centred("RING FACE", (near, -5.0), EDGE_TEXT), centred("RING FACE", second, EDGE_TEXT, turn))
