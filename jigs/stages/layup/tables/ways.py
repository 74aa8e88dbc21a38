"""Layups: the ways of cutting the pieces, and what the pattern does at the seams: tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isinf

from jigs.plans.plan import Plan
from jigs.stages.layup.plan import Against, Change, Closing, LayupPlan, StackWay
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.model import Cell, Column, Table

WAYS = (
    Column("rings", "Rings", "rings"),
    Column("way", "Way"),
    Column("pieces", "Pieces from a stack", "count"),
    Column("stacks", "Stacks", "count"),
    Column("strips", "Strips in each", "count"),
    Column("length", "Strips, long", "rule"),
    Column("stagger", "Each set back by", "calliper"),
    Column("wood", "Wood in strips", "volume"),
    Column("sheets", "Sheets to make", "count"),
    Column("waste", "Wasted", "volume"),
    Column("cuts", "Cuts", "count"),
    Column("why", "Why not"),
)
SEAMS = (Column("rings", "Rings", "rings"), Column("what", "What"), Column("value", ""))
CLOSINGS = (
    Column("rings", "Rings", "rings"),
    Column("change", "By"),
    Column("i", "Repeats along a", "count"),
    Column("j", "Repeats along b", "count"),
    Column("angle", "Angle", "angle"),
    Column("sheet", "Sheet, thick", "calliper"),
    Column("a", "Side a shows", "calliper"),
    Column("b", "Side b shows", "calliper"),
    Column("radius", "Whole at, from the axis", "calliper"),
)
WHOLE = "What ends the pattern whole at the seams"
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
    """Ways, seams, and what closes the pattern; none without a layup."""
    layups = plan.layups
    if not layups:
        return ()
    ways = tuple(_way(layup, way) for layup in layups for way in layup.ways)
    seams = tuple((layup.rings, one.label, one) for layup in layups for one in _seams(layup))
    closings = tuple(_closing(layup, closing) for layup in layups for closing in layup.closings)
    return (
        Table("layup-ways", "Ways of cutting a layup's pieces, the chosen one first", WAYS, ways),
        Table("layup-seams", "A layup's pattern at the seams", SEAMS, seams),
        *([Table("layup-closings", WHOLE, CLOSINGS, closings)] if closings else []),
    )


def _way(layup: LayupPlan, way: StackWay) -> tuple[Cell, ...]:
    name = "pieces one by one" if way.kind == "one by one" else f"rows, {way.kind}"
    why = None if way.against is None or way.wood >= layup.way.wood else AGAINST[way.against]
    return (
        layup.rings,
        name,
        way.pieces,
        way.stacks,
        way.strips,
        way.strip_length,
        way.stagger or None,
        way.wood,
        way.sheets,
        way.waste,
        way.cuts,
        why,
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


def _closing(layup: LayupPlan, closing: Closing) -> tuple[Cell, ...]:
    return (
        layup.rings,
        CHANGED[closing.what],
        closing.i or None,
        closing.j or None,
        closing.angle,
        closing.repeat,
        closing.across,
        closing.up,
        closing.radius,
    )
