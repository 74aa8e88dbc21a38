"""Rings of segments as they are glued, from above: in their band, and on a glue-up board."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import cos, pi, sin, tan

from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Point, area, line, polygon
from jigs.figures.told import Show, by_calliper, labelled
from jigs.parts.part import Line, Part
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.slips.layout import PROUD

BAND = 2.5  # mm from the wood to the band, as drawn
PAPER = 6.0  # mm that waxed paper stands out of a joint


def in_band(plan: TorusPlan, show: Show) -> Figure:
    """A ring that is glued to halves, waxed paper between them."""
    blank = plan.blank
    n, outer = blank.segments, blank.apothem
    return Figure(
        "rings.halves",
        "A ring in its band, from above",
        "All segments of a ring in one band, outer sides out. Waxed paper keeps two joints opposite one another open: "
        "two half rings come out.",
        (
            *_ring(n, outer, blank.core_apothem),
            *_strips(n, outer, blank.core_apothem, blank.spacer),
            *_papers(n, outer, blank.core_apothem),
            _across(n, outer, outer / cos(pi / n) + BAND, show),
            *_named(n, outer, blank.core_apothem),
        ),
        height=90.0,
    )


def on_board(plan: VesselPlan, parts: Mapping[str, Part], show: Show) -> Figure | None:
    """The largest ring of the first board; None where there is no board."""
    if not plan.ring_boards.glue_up:
        return None
    board = plan.ring_boards.glue_up[0]
    ring = board.sizes[0].size
    part, half = parts[f"glue-up-board-{board.number}"], board.side / 2
    halves = ring.segments % 2 == 0
    return Figure(
        "building.glue-up-boards",
        "A ring on its glue-up board, from above",
        "The ring lies flat on the board, its outside on the line that carries its number, a flat straight down. "
        + (
            "Waxed paper keeps two joints open where it is glued to halves."
            if halves
            else "A band closes it."
        ),
        (
            area(part.outline, fill="jig"),
            *(line(*mark.points, paint="grey") for mark in part.marks if isinstance(mark, Line)),
            *_ring(ring.segments, ring.outer, ring.core),
            *(_papers(ring.segments, ring.outer, ring.core) if halves else ()),
            _across(ring.segments, ring.outer, half, show),
            *_named(ring.segments, ring.outer, ring.core, halves),
            labelled("board", part.name, (half - 6, half - 6), "right"),
        ),
        height=105.0,
    )


def _corner(segments: int, apothem: float, k: float) -> Point:
    """Of joint k; half a joint on is the middle of a flat. A flat lies straight down."""
    mu = pi / segments
    turn, radius = -pi / 2 + (2 * k + 1) * mu, apothem / cos(mu)
    return (radius * cos(turn), radius * sin(turn))


def _ring(segments: int, outer: float, core: float) -> Iterator[Item]:
    for k in range(segments):
        ends = [(core, k), (outer, k), (outer, k + 1), (core, k + 1)]
        yield polygon([_corner(segments, apothem, at) for apothem, at in ends], fill="wood")
    around = [_corner(segments, outer + BAND, k) for k in range(segments)]
    yield line(*around, around[0], paint="metal", width=0.8)


def _strips(segments: int, outer: float, core: float, thick: float) -> Iterator[Item]:
    """Between segments, level with the outside, standing out inside; none where they are 0 thick."""
    for k in range(segments if thick else 0):
        turn = -pi / 2 + (2 * k + 1) * pi / segments
        level = outer / cos(pi / segments) - thick / 2 * tan(pi / segments)
        ends = (core / cos(pi / segments) - PROUD, level)
        sides = ((ends[0], -1), (ends[1], -1), (ends[1], 1), (ends[0], 1))
        yield polygon(
            [
                (r * cos(turn) - s * thick / 2 * sin(turn), r * sin(turn) + s * thick / 2 * cos(turn))
                for r, s in sides
            ],
            fill="other wood",
        )


def _papers(segments: int, outer: float, core: float) -> Iterator[Item]:
    """In a joint, and in the one opposite."""
    for k in (0, segments // 2):
        inside, outside = max(core - PAPER, 0.0), outer - 0.5
        yield line(_corner(segments, inside, k), _corner(segments, outside, k), paint="blade", width=0.6)


def _across(segments: int, outer: float, room: float, show: Show) -> Dimension:
    """From the flat below to the flat above it, of an odd count to the corner; its line is `room` from the middle."""
    top = outer if segments % 2 == 0 else outer / cos(pi / segments)
    return Dimension((0.0, -outer), (0.0, top), by_calliper(show, outer + top), 7.0, room)


def _named(segments: int, outer: float, core: float, halves: bool = True) -> tuple[Item, ...]:
    x, y = _corner(segments, (outer + core) / 2, segments // 4 + 0.5)
    paper = [Callout("waxed paper", _corner(segments, 0.9 * outer, 0), "right")] if halves else []
    return (
        Callout("segment", (x, y), "right"),
        Callout("band", _corner(segments, outer + BAND, segments * 3 // 8), "right"),
        *paper,
    )
