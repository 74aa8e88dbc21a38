"""Layups: from plies to rails, the ways of cutting the pieces, what the pattern does at the seams: the tables."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import isinf

from jigs.asked.job import Job
from jigs.plans.plan import Plan
from jigs.stages.layup.layout.rail import WIDTH
from jigs.stages.layup.plan import Against, Change, Closing, LayupPlan, StackWay
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.model import Cell, Column, Row, Table, tabled

COLUMNS = (
    Column("what", "What"),
    Column("rings", "Rings", "rings"),
    Column("count", "Count", "count"),
    Column("thickness", "Thickness", "calliper"),
    Column("width", "Width", "calliper"),
    Column("length", "Length", "rule"),
)
SEAMS = (Column("rings", "Rings", "rings"), Column("what", "What"), Column("value", ""))
AGAINST: dict[Against, str] = {
    "more wood": "more sheets have to be made",
    "more stacks": "more stacks to glue",
    "set back": "strips have to be set back, and no sheet is saved",
    "short strips": "its strips are too short to be held by hand",
}
CHANGED: dict[Change, str] = {
    "angle": "another angle (layup.angle)",
    "ply thickness": "other plies (layup.plies)",
    "angle and plies": "another angle and other plies",
    "segment": "another size of segment",
}


def tables(plan: Plan) -> Sequence[Table]:
    """In the order of the work, size by size; ways, seams, and what closes the pattern."""
    layups = plan.layups
    rows = tuple(row for layup in layups for row in _layup(plan.job, layup))
    ways = (_way(layup, way) for layup in layups for way in layup.ways)
    seams = tuple((layup.rings, one.label, one) for layup in layups for one in _seams(layup))
    closings = (_closing(layup, closing) for layup in layups for closing in layup.closings)
    return (
        Table("layup", "Layup", COLUMNS, rows),
        *tabled("layup-ways", "Ways of cutting a layup's pieces, the chosen one first", ways),
        Table("layup-seams", "A layup's pattern at the seams", SEAMS, seams),
        *tabled("layup-closings", "What ends the pattern whole at the seams", closings),
    )


def _layup(job: Job, layup: LayupPlan) -> Iterator[tuple[Cell, ...]]:
    way, piece, rail, rings = layup.way, layup.layup, layup.rail, layup.rings
    depth, stack = piece.depth, way.strips * piece.sheet
    if job.layup is not None and way.sheets:
        size = (job.layup.sheet_width, job.layup.sheet_length)
        for (name, thick), each in Counter(zip(layup.names, piece.plies, strict=True)).items():
            yield f"ply of {name}, to buy", rings, each * way.sheets, thick, *size
        yield "sheet", rings, way.sheets, piece.sheet, *size
    yield "strip as ripped", rings, way.strips_in_all, piece.sheet, layup.strip_width, way.strip_length
    yield "stack", rings, way.stacks, stack, depth, way.strip_length
    yield "scrap behind a stack, at least", rings, way.stacks, stack, depth, way.tail
    yield "slab", rings, way.stacks * way.pieces, way.slab, depth, None
    yield "piece", rings, layup.pieces + layup.spares, piece.a, depth, piece.b
    yield "block", rings, layup.blocks, rail.thickness, None, rail.block
    yield "rail of scrap", rings, rail.rails, rail.thickness, WIDTH, rail.length
    yield "scrap behind the last block", rings, rail.rails, rail.thickness, None, rail.held


def _way(layup: LayupPlan, way: StackWay) -> Row:
    name = "pieces one by one" if way.kind == "one by one" else f"rows, {way.kind}"
    why = None if way.against is None or way.wood >= layup.way.wood else AGAINST[way.against]
    return (
        (Column("rings", "Rings", "rings"), layup.rings),
        (Column("way", "Way"), name),
        (Column("pieces", "Pieces from a stack", "count"), way.pieces),
        (Column("stacks", "Stacks", "count"), way.stacks),
        (Column("strips", "Strips in each", "count"), way.strips),
        (Column("length", "Strips, long", "rule"), way.strip_length),
        (Column("stagger", "Each set back by", "calliper"), way.stagger or None),
        (Column("wood", "Wood in strips", "volume"), way.wood),
        (Column("sheets", "Sheets to make", "count"), way.sheets),
        (Column("waste", "Wasted", "volume"), way.waste),
        (Column("cuts", "Cuts", "count"), way.cuts),
        (Column("why", "Why not"), why),
    )


def _seams(layup: LayupPlan) -> Iterator[Quantity]:
    low, high = layup.shown_up_range
    seams = layup.seams
    yield _period("period.a", "Repeat along a", layup.layup.period_a)
    yield _period("period.b", "Repeat along b", layup.layup.period_b)
    yield calliper("shown.a", "Of a, shows between seams", layup.shown_across)
    if layup.shown_farthest > layup.shown_across:
        yield calliper("shown.a.most", "Of a, where most of it shows", layup.shown_farthest)
    yield calliper("shown.b", "Of b, shows between seams", layup.shown_up)
    if high > low:
        yield calliper("shown.b.hole", "Of b, at the hole", low)
        yield calliper("shown.b.rim", "Of b, at the rim", high)
    yield Quantity("repeats.a", "Repeats along a", layup.repeats_across, "ratio")
    yield Quantity("repeats.b", "Repeats along b", layup.repeats_up, "ratio")
    if layup.per_segment > 1:
        yield calliper("lost", "Lost of the plies at the glued corner, by sanding", layup.seam_loss)
    yield Quantity("segments", "Every other segment mirrored", _yes(seams.alternate_segments), "text")
    yield Quantity("rings", "Every other ring mirrored", _yes(seams.alternate_rings), "text")
    yield Quantity("other-hand", "Segments of the other hand", seams.other_hand, "count")


def _period(id: str, label: str, mm: float) -> Quantity:
    return Quantity(id, label, "none: the plies run along it", "text") if isinf(mm) else ruled(id, label, mm)


def _yes(true: bool) -> str:
    return "yes" if true else "no"


def _closing(layup: LayupPlan, closing: Closing) -> Row:
    return (
        (Column("rings", "Rings", "rings"), layup.rings),
        (Column("change", "By"), CHANGED[closing.what]),
        (Column("i", "Repeats along a", "count"), closing.i or None),
        (Column("j", "Repeats along b", "count"), closing.j or None),
        (Column("angle", "Angle", "angle"), closing.angle),
        (Column("sheet", "Sheet, thick", "calliper"), closing.repeat),
        (Column("a", "Side a shows", "calliper"), closing.across),
        (Column("b", "Side b shows", "calliper"), closing.up),
        (Column("radius", "Whole at, from the axis", "calliper"), closing.radius),
    )
