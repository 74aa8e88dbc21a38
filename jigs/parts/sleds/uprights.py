"""Upright parts of sleds: gussets, stop cheeks and handle.

Each is drawn with its foot on y = 0 and its tabs below.
"""

from __future__ import annotations

from math import cos, degrees, sin, tan
from typing import TYPE_CHECKING

from geometry.hardware.sled_sizes import GUSSET_DEPTH, GUSSET_TAB, HANDLE_LENGTH, HANDLE_TABS, TAB
from geometry.plane.contour import outline as contour
from geometry.readback.free_edge import FreeEdge
from jigs.parts.part import Dimension, Part, Point
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, middle, tab_room, with_tabs
from jigs.parts.probes import EdgeAngle, EdgeGap
from jigs.plans.plan import Plan

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan

GUSSET_TIP = 15.0
HIGHER = 40.0  # mm more of a fence that do no harm
END = 0.5  # mm of a fence's ends and of a gusset's top, on which nothing depends
HANDLE_HEIGHT, GRIP_WIDTH, GRIP_HEIGHT = 95.0, 95.0, 32.0
LEAST_CHEEK = 45.0  # tall, for its lettering
CHEEK_FOOT = 4.0  # relief below the ring's flat


def ends_free(left: float, right: float, height: float) -> tuple[FreeEdge, ...]:
    """The upright ends of a fence."""
    return tuple(FreeEdge((x, height / 2), END, END) for x in (left, right))


def gusset(plan: TorusPlan) -> Part:
    """Holds the fence square. x runs back from the fence's rear face."""
    layout, t = plan.sled, plan.sled.sheet
    height, foot = layout.gusset_height, layout.gusset_mortise
    slope = [(GUSSET_DEPTH, 0.0), (GUSSET_DEPTH, GUSSET_TIP), (GUSSET_TIP, height), (0.0, height)]
    tenon = [(0.0, foot + TAB), (-t, foot + TAB), (-t, foot), (0.0, foot)]
    plate = Plate(plan, with_tabs([*slope, *tenon, (0.0, 0.0)], (GUSSET_TAB,), t))
    plate.hang((0.0, height))
    plate.letter("GUSSET", "FOOT ↓", "← FENCE")
    plate.angle("foot to fence", 90.0, (GUSSET_DEPTH - 5, 0.0), (0.0, height - 4))
    return plate.part(
        "sled-gusset",
        "holds the fence square to the base",
        quantity=len(layout.gussets),
        free=(FreeEdge((GUSSET_TIP / 2, height), END, END), FreeEdge(middle(*slope[1:3]), END, END)),
        works_to=tab_room(plan),
    )


def working_edge(plan: TorusPlan) -> list[Point]:
    """The stop's edge from foot to top: x = 0 is where the ring's outer flat, or its arris, comes."""
    apothem, mitre = plan.blank.apothem, plan.blank.mitre
    if plan.blank.arris_out:
        relief = 2.0
        along, arm_y = plan.sled.arm
        arm_x = -along
        return [
            (arm_x, apothem - arm_y),
            (-relief * sin(mitre), apothem - relief * cos(mitre)),
            (relief, apothem - relief * cos(mitre)),
            (relief, apothem + relief * cos(mitre)),
            (-relief * sin(mitre), apothem + relief * cos(mitre)),
            (arm_x, apothem + arm_y),
        ]
    low, high = apothem * (1 - tan(mitre)) - 2, apothem * (1 + tan(mitre)) + 2
    return [(CHEEK_FOOT, low - CHEEK_FOOT), (0.0, low), (0.0, high)]


def cheek_top(plan: TorusPlan) -> float:
    return max(working_edge(plan)[-1][1], LEAST_CHEEK) + 6


def stop_cheek(plan: TorusPlan) -> Part:
    """Takes the thrust in its own plane. x runs from the ring towards the operator."""
    layout, t = plan.sled, plan.sled.sheet
    edge = working_edge(plan)
    length, top = layout.cheek_length, cheek_top(plan)
    back = min(25.0, top / 2)
    outline = with_tabs(
        [
            (length, 0.0),
            (length, back),
            (length * 0.45, top),
            (edge[-1][0], top),
            *reversed(edge),
            (max(edge[0][0], CHEEK_FOOT), max(edge[0][1] - 4, 2.0)),
            (CHEEK_FOOT, 0.0),
        ],
        (layout.cheek_tab,),
        t,
    )
    plate = Plate(plan, outline)
    plate.hang((length / 2, top))
    plate.letter("SLED STOP", f"← {'ARRIS' if plan.blank.arris_out else 'OUTER FLAT'}", *SAW_CAUTION)
    plate.dimensions += _stop_dimension(plan, layout.cheek_tab + TAB)
    return plate.part(
        "sled-stop-cheek",
        "the one stop: the ring's outer side butts against it",
        quantity=len(layout.cheeks),
        free=() if plan.blank.arris_out else _free_of_cheek(length, back, top, edge),
    )


def _free_of_cheek(length: float, back: float, top: float, edge: list[Point]) -> tuple[FreeEdge, ...]:
    """Its back and its top, and as much of the relief as leaves the flat room on the working edge."""
    (x, low), (_, high) = edge[0], edge[1]
    return (
        FreeEdge((length, back / 2), 3.0, 5.0),
        FreeEdge(middle((length, back), (length * 0.45, top)), 3.0, 10.0),
        FreeEdge((length * 0.4, top), 1.5, 30.0),
        FreeEdge(middle((x, low), (0.0, high)), 1.2, 1.2),
    )


def _stop_dimension(plan: TorusPlan, tab_end: float) -> tuple[Dimension, ...]:
    tab = (tab_end, -plan.sled.sheet / 2)
    if plan.blank.arris_out:
        edge = working_edge(plan)
        arms = (middle(edge[0], edge[1]), middle(edge[-2], edge[-1]))
        return (Dimension("angle of the V", 180 - 2 * degrees(plan.blank.mitre), EdgeAngle(*arms)),)
    return (Dimension("working edge to tab", tab_end, EdgeGap((0.0, plan.blank.apothem), tab)),)


def handle(plan: Plan, name: str = "sled-handle") -> Part:
    """What the hands hold, out of line with the blade."""
    long, tall, r = HANDLE_LENGTH, HANDLE_HEIGHT, GRIP_HEIGHT / 2
    top = [(long, 0.0), (long, tall - 20), (long - 20, tall), (20.0, tall), (0.0, tall - 20), (0.0, 0.0)]
    x0, x1, y = (long - GRIP_WIDTH) / 2 + r, long - (long - GRIP_WIDTH) / 2 - r, tall - 20 - r
    grip = contour((x0, y - r), (x1, y - r, 1.0), (x1, y + r), (x0, y + r, 1.0))
    plate = Plate(plan, with_tabs(top, HANDLE_TABS, plan.job.workshop.boards.sheet), [grip])
    plate.letter("SLED HANDLE, HAND HERE", *SAW_CAUTION)
    return plate.part(name, "keeps the hand clear of the blade")
