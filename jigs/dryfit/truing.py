"""Truing: the carrier with its cheeks, the sanding board on its base, the check plate, the wedge for end rings."""

from __future__ import annotations

from math import cos, degrees, pi, tan

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import Edge
from jigs.asked.job import TorusJob
from jigs.dryfit.bench import (
    ANGLE,
    OVER,
    SLACK,
    STRAIGHT_ON,
    Bench,
    Slot,
    gusset_checks,
    over_sheet,
    slot_of,
    slots,
    tab_checks,
    tabs,
)
from jigs.dryfit.bolts import thread_checks
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, near
from jigs.dryfit.ring import CutRing, thin_end, wedge_taper
from jigs.dryfit.sled import working_x

LAND = 0.02  # mm, of the check plate's straight edge
SEAT = 0.05  # mm, of a cheek's edge on its ring


def truing_checks(job: TorusJob, files: Files, ring: CutRing) -> list[Check]:
    """All of it, the rings as the sled cuts them."""
    carrier, cheek, base = (files.drawn(f"truing-{name}") for name in ("carrier", "cheek", "base"))
    board, gusset, bar = (files.drawn(f"truing-{name}") for name in ("board", "gusset", "bar"))
    return [
        *_carrier_checks(job, carrier),
        *_cheek_checks(job, carrier, cheek, ring),
        *_board_checks(job, base, board, gusset),
        *thread_checks("truing-bar", "bolt hole", [*carrier.drills, *bar.drills], job.fittings.bolt),
        *(near("truing-bar", "bolt in the carrier's middle", d.centre[0], 0.0, OVER) for d in carrier.drills),
        *_bar_checks(bar, carrier, ring),
        *half_check_checks(files.drawn("half-check"), ring),
        *_end_wedge_checks(job, files, ring),
    ]


def _carrier_checks(job: TorusJob, carrier: Drawn) -> list[Check]:
    """Both feet in the line of the bare board, as far in front of the planned line as the abrasive is thick."""
    feet = _feet(carrier)
    levels = [p[1] for e in feet for p in (e.start, e.end)]
    sides = [e.ends[0] for e in feet]
    thick = job.workshop.truing.abrasive
    return [
        carrier.counted("feet found", len(feet), 2),
        *carrier.all_near("foot on the bare board", levels, -thick, SLACK),
        carrier.check("feet on both sides", -min(sides) * max(sides), 0.0),
    ]


def _cheek_checks(job: TorusJob, carrier: Drawn, cheek: Drawn, ring: CutRing) -> list[Check]:
    """Every cheek's edge on its ring's outer side, the slots of one ring on both sides of its middle."""
    w = pi / job.form.wedge_rings
    behind = job.form.ring_spacer / 2
    found = [_in_ring(hole, w, behind) for hole in carrier.holes if len(hole) == 4]
    tab, most = tabs(cheek)[0], 2 * job.workshop.boards.play + SLACK
    foot = tab[1] - working_x(job, cheek)
    rings = {index: [s for i, s in found if i == index] for index, _ in found}
    return [
        carrier.check("cheeks' slots found", len(found), 2, unit="pieces"),
        *carrier.all_near("slot's turn off its ring", [s.turn for _, s in found], 0.0, ANGLE, "deg"),
        *carrier.all_near(
            "cheek's edge on the outer side", [s.s[1] - foot for _, s in found], ring.outer_radius, SEAT
        ),
        *(
            carrier.near(
                f"ring {i + 1}'s cheeks about its middle",
                float(np.mean([sum(s.u) / 2 for s in own])),
                0.0,
                OVER,
            )
            for i, own in rings.items()
        ),
        *(over_sheet(carrier.name, "slot over the sheet", s.u[1] - s.u[0], job) for _, s in found),
        *carrier.all_within(
            "slot over the tab", [s.s[1] - s.s[0] - (tab[1] - tab[0]) for _, s in found], -SLACK, most
        ),
        *carrier.all_near(
            "cheeks of a ring apart",
            [max(s.u[0] for s in own) - min(s.u[0] for s in own) for own in rings.values() if len(own) == 2],
            _apart(ring, w),
            OVER,
        ),
    ]


def _apart(ring: CutRing, w: float) -> float:
    """Half of the ring's thick edge."""
    return (ring.outer_radius - ring.parted) * tan(w)


def _in_ring(hole: Contour, w: float, behind: float) -> tuple[int, Slot]:
    """Which ring of the half a slot is for, and the slot in that ring's frame; the axis lies `behind` the line."""
    x, y = hole.centroid
    index = round((np.arctan2(y + behind, x) / w - 1) / 2)
    turn = (2 * index + 1) * w
    c, s = float(np.cos(turn)), float(np.sin(turn))
    return index, slot_of(hole, Bench((0.0, -behind), (c, s), (-s, c), 0.0))


def _board_checks(job: TorusJob, base: Drawn, board: Drawn, gusset: Drawn) -> list[Check]:
    """The sanding board in its base, square to nothing but upright; gussets behind it."""
    found, sheet = slots(base, STRAIGHT_ON), job.workshop.boards.sheet
    level = sorted(
        (s for s in found if s.s[1] - s.s[0] > s.u[1] - s.u[0] and _front(s, found)), key=lambda s: s.s
    )
    behind = sorted((s for s in found if s not in level), key=lambda s: s.s)
    mortises = sorted(h.bounds for h in board.holes)
    faces = [s.u[0] + sheet for s in level]
    places = [(faces[0] - sheet - s.u[1], faces[0] - sheet - s.u[0]) for s in behind]
    return [
        board.counted("slots found", len(level), len(tabs(board))),
        *board.all_near("bare face off its line", faces, -job.workshop.truing.abrasive, SLACK),
        *board.all_near("slot's turn", [s.turn for s in found], 0.0, ANGLE, "deg"),
        *tab_checks(board.name, "tab in its slot", tabs(board), [s.s for s in level], job),
        *gusset_checks(job, gusset, gusset.name, "board", mortises, behind, places),
    ]


def abrasive_checks(files: Files, ring: CutRing) -> list[Check]:
    """Its ends past the half's faces on both sides, and short of the feet, which slide on the bare board."""
    board, carrier = files.drawn("truing-board"), files.drawn("truing-carrier")
    ends = np.abs(board.lines.get("abrasive ends", np.zeros((0, 2)))[:, 0])
    feet = min((min(abs(e.ends[0]), abs(e.ends[2])) for e in _feet(carrier)), default=0.0)
    rim = ring.outer_radius / cos(ring.included / 2)
    return [
        board.counted("lines at the ends of the abrasive", len(ends) // 2, 2),
        board.check("abrasive past the half's rim by", min(ends, default=0.0) - rim, 0.0),
        board.check("abrasive short of the feet by", feet - max(ends, default=0.0), 0.0),
    ]


def _feet(carrier: Drawn) -> list[Edge]:
    low = carrier.outline.bounds[1]
    return [e for e in carrier.straight() if e.ends[3] < low + 0.5 and e.length > 5]


def _front(slot: Slot, found: list[Slot]) -> bool:
    return slot.u[1] > max(s.u[1] for s in found) - 5


def _bar_checks(bar: Drawn, carrier: Drawn, ring: CutRing) -> list[Check]:
    """The bar, its bolt in the hole, reaches over both sides of the half."""
    half = (bar.outline.bounds[2] - bar.outline.bounds[0]) / 2
    y = carrier.drills[0].centre[1]
    return [
        *bar.all_near(
            "bolt in its middle", [d.centre[0] for d in bar.drills], sum(bar.outline.bounds[::2]) / 2, OVER
        ),
        *bar.all_near(
            "bolt half across", [d.centre[1] for d in bar.drills], sum(bar.outline.bounds[1::2]) / 2, OVER
        ),
        bar.check("reaches over the rings by", float(np.hypot(half, y)) - ring.inner_radius, 3.0),
    ]


def half_check_checks(plate: Drawn, ring: CutRing) -> list[Check]:
    """Two lands in one line over both end faces of a half, clear of the hole between."""
    lands = [e for e in plate.straight() if abs(e.midpoint[1]) < 0.5 and e.length > 5]
    off = [p[1] for e in lands for p in (e.start, e.end)]
    spans = sorted(e.ends[::2] for e in lands)
    c = cos(ring.included / 2)
    return [
        plate.counted("lands found", len(lands), 2),
        *plate.all_near("land off the plane of the ends", off, 0.0, LAND),
        plate.check("past the rim's edge, left", -spans[0][0] - ring.outer_radius / c, 1.0),
        plate.check("past the rim's edge, right", spans[-1][1] - ring.outer_radius / c, 1.0),
        plate.check("past the hole's edge, left", ring.inner_radius / c + spans[0][1], 1.0),
        plate.check("past the hole's edge, right", ring.inner_radius / c - spans[-1][0], 1.0),
    ]


def _end_wedge_checks(job: TorusJob, files: Files, ring: CutRing) -> list[Check]:
    """The thinner wedge leaves the ends of halves what is sanded off there, at the same angle.

    END faces are not sanded for the glue: what that takes off all other faces is left on them too.
    """
    if not files.has("end-wedge"):
        return []
    thin, usual = files.drawn("end-wedge"), files.drawn("sled-wedge")
    spare = (thin_end(usual) - thin_end(thin)) * cos(ring.included / 2)
    return [
        thin.near(
            "taper as the sled's wedge",
            degrees(wedge_taper(thin)),
            180 / job.form.wedge_rings + degrees(files.wedge_turn),
            ANGLE,
            "deg",
        ),
        thin.near("leaves on that face", spare + job.form.face_sanding, job.form.half_sanding, SLACK),
    ]
