"""Boards that rings are glued on and trued by, and plates that centre them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import atan2, cos, hypot, pi

import numpy as np
import shapely

from geometry.plane.edges import FloatArray
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, Plate, counted
from jigs.dryfit.vessel.outside import round_holes
from jigs.dryfit.vessel.rings import Held
from jigs.dryfit.vessel.work import Work

OUTLINE = 0.06  # mm: rings whose outsides differ by less share an outline
SLACK = 0.03  # mm
JOINT = 0.05  # mm, of a joint's mark off the joint
PLAY = (0.05, 0.4)  # mm of a centring plate in the tightest of its openings, on the apothem
LOOSE = 1.0  # mm, in the widest
LEAST_OPENING = 16.5  # mm, apothem of an opening that has a plate
LAND = 0.02  # mm
TIP = 2.0  # mm: tips nearer to each other share a tick


def numbers_in(text: str) -> list[int]:
    """Ring numbers as they are written: "rings 2, 4-7"."""
    spans = re.findall(r"(\d+)(?:-(\d+))?", text)
    return [number for a, b in spans for number in range(int(a), int(b or a) + 1)]


def glue_up_checks(files: Files, rings: Sequence[Held]) -> list[Check]:
    """Every ring's outline on one board, its joints and the middle with it."""
    found, drawn = list[Check](), list[int]()
    for name in files.numbered("glue-up-board"):
        board = files.drawn(name)
        own: list[Held] = []
        for line, points in board.lines.items():
            if line.startswith("outside of "):
                numbers = numbers_in(line)
                drawn += numbers
                same = [ring for ring in rings if ring.number in numbers]
                own += same[:1]
                found += [check for ring in same for check in _outline_checks(board, ring, points)]
        found += [*_joint_checks(board, own), *_pin_checks(board)]
    counts = [
        counted("glue-up boards", f"outlines of ring {r.number}", drawn.count(r.number), 1) for r in rings
    ]
    return [*counts, *found]


def _outline_checks(board: Drawn, ring: Held, points: FloatArray) -> list[Check]:
    """The line against the ring from above, both ways; the whole of it on the board."""
    line, meant = shapely.LineString(points), ring.outside().exterior
    inside = board.shape.exterior.distance(line) if board.shape.contains(line) else -1.0
    return [
        board.near(f"outline off ring {ring.number}", float(line.hausdorff_distance(meant)), 0.0, OUTLINE),
        board.check(f"board round ring {ring.number}", inside, 5.0),
    ]


def _joint_checks(board: Drawn, rings: Sequence[Held]) -> list[Check]:
    """Each mark lies on a joint of one of the board's rings, beside it by half the strip."""
    marks = board.lines.get("joint", np.zeros((0, 2))).reshape(-1, 2, 2)
    wanted = sum(ring.segments * (2 if ring.spacer else 1) for ring in rings)
    off = [min((_off_joint(mark, ring) for ring in rings), default=np.inf) for mark in marks]
    return [
        board.counted("joints marked", len(marks), wanted),
        board.near("mark off its joint, worst", max(off, default=0.0), 0.0, JOINT),
    ]


def _off_joint(mark: FloatArray, ring: Held) -> float:
    """How far a mark's ends are off a joint's line; much where the mark is not within the ring's edge."""
    radius = ring.most / cos(ring.mitre)
    far = np.hypot(*mark.T)
    if far.max() > radius or far.max() < radius - 5.0:
        return float("inf")
    step = 2 * ring.mitre
    turn = atan2(*mark.mean(axis=0)[::-1]) + pi / 2 - ring.mitre
    joint = round(turn / step) * step - pi / 2 + ring.mitre
    off = np.abs(mark @ np.array((-np.sin(joint), np.cos(joint))))
    return float(np.abs(off - ring.spacer / 2).max())


def _pin_checks(board: Drawn) -> list[Check]:
    pins = [hypot(*d.centre) for d in board.drills]
    return [board.near("pin in the middle", min(pins, default=np.inf), 0.0, SLACK)]


def centring_checks(work: Work, files: Files, rings: Sequence[Held]) -> list[Check]:
    """Every plate in the openings of its rings, its hole in their middle; every opening large enough has one.

    But for that of ring 2 over a floating base, which is bored round.
    """
    plates = {
        name: [int(number) for number in match[1].split("-")]
        for name in files.names()
        if (match := re.fullmatch(r"centring-plate-ring-([0-9-]+)", name))
    }
    held = [number for numbers in plates.values() for number in numbers]
    floats = work.job.rings.base == "floating"
    found = [
        counted("centring plates", f"plates of ring {r.number}", held.count(r.number), 1)
        for r in rings
        if r.core > LEAST_OPENING and not r.plugged and not (floats and r.number == 2)
    ]
    for name, numbers in plates.items():
        own = [ring for ring in rings if ring.number in numbers]
        found += _plate_checks(files.plate(name), own)
    return found


def _plate_checks(plate: Plate, rings: Sequence[Held]) -> list[Check]:
    """On every side; the tightest opening leaves it little play, the widest not too much."""
    hole = min((hypot(*middle) for middle, _ in round_holes(plate)), default=np.inf)
    plays = {ring.number: _plays(plate, ring) for ring in rings}
    tightest = min(plays.values(), key=lambda both: both[0], default=(np.nan, np.nan))
    return [
        plate.near("hole off the middle", hole, 0.0, 0.05),
        plate.check("play in the tightest opening, least", tightest[0], *PLAY),
        plate.check("play in the tightest opening, most", tightest[1], *PLAY),
        *(plate.check(f"play in ring {n}", most, PLAY[0], LOOSE) for n, (_, most) in plays.items()),
    ]


def _plays(plate: Plate, ring: Held) -> tuple[float, float]:
    """Least and most, over the sides of the opening, from the plate to the side."""
    turns = -pi / 2 + 2 * pi * np.arange(ring.segments) / ring.segments
    reach = (plate.outline @ np.stack((np.cos(turns), np.sin(turns)))).max(axis=0)
    return float(ring.core - reach.max()), float(ring.core - reach.min())


def truing_checks(work: Work, files: Files, rings: Sequence[Held]) -> list[Check]:
    """Board, upright and check for the halves of rings of an even count."""
    halves = [ring for ring in rings if ring.segments % 2 == 0]
    if not halves:
        return []
    board, face, check = (
        files.drawn(f"{n}") for n in ("ring-truing-board", "ring-truing-face", "half-ring-check")
    )
    plane, top = board.lines["plane of the ends"], face.lines["top of the ring-truing board"]
    sheet = work.job.workshop.boards.sheet
    tallest = max(ring.top - ring.bottom for ring in halves)
    low = board.outline.bounds[1]
    return [
        board.near(
            "plane of the ends before its edge",
            float(plane[:, 1].max()) - low,
            work.job.workshop.truing.abrasive,
            SLACK,
        ),
        board.near("plane out of line", float(np.ptp(plane[:, 1])), 0.0, SLACK),
        *(c for ring in halves for c in _tick_checks(board, ring)),
        *face.all_near("line at the board's top", top[:, 1], sheet, SLACK),
        face.check("abrasive over the tallest ring by", face.outline.bounds[3] - sheet - tallest, 5.0),
        *_land_checks(check, halves),
    ]


def _tick_checks(board: Drawn, ring: Held) -> list[Check]:
    """Its tips at ticks on both sides."""
    radius = ring.most / cos(ring.mitre)
    ticks = [
        p for name, p in board.lines.items() if name.startswith("tip of ") and ring.number in numbers_in(name)
    ]
    sides = sorted({round(float(x), 6) for points in ticks for x in points[:, 0]})
    return [
        board.counted(f"ticks of ring {ring.number}", len(sides), 2),
        *board.all_within(
            f"tip of ring {ring.number} inside its tick", [abs(x) - radius for x in sides], -SLACK, TIP
        ),
        *board.all_near(
            f"ticks of ring {ring.number} about the middle", [sum(sides) for _ in sides[:1]], 0.0, SLACK
        ),
    ]


def _land_checks(check: Drawn, halves: Sequence[Held]) -> list[Check]:
    """Two lands in one line, over both ends of every half."""
    lands = [e for e in check.straight() if abs(e.midpoint[1]) < 0.5 and e.length > 1]
    reach = sorted(x for e in lands for x in (e.start[0], e.end[0]))
    largest = max(ring.most / cos(ring.mitre) for ring in halves)
    smallest = min((ring.core for ring in halves if ring.core > 0), default=np.inf)
    inner = max((min(abs(e.start[0]), abs(e.end[0])) for e in lands), default=np.inf)
    return [
        check.counted("lands found", len(lands), 2),
        *check.all_near(
            "land off the plane of the ends", [p[1] for e in lands for p in (e.start, e.end)], 0.0, LAND
        ),
        *check.all_within("past the largest ring", [abs(x) - largest for x in (reach[0], reach[-1])], 1.0),
        check.check("into the smallest opening", smallest - inner, min(1.0, smallest / 2 - SLACK)),
    ]
