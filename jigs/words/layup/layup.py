"""Layups in words: the pieces, the ways to them, what the pattern does at the seams."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, islice
from math import degrees, isinf

from geometry.ring_stack import ALIKE
from jigs.job import Job, TorusJob
from jigs.lengths import show_length
from jigs.plan.layup.layup import Closing, LayupPlan, StackWay
from jigs.plan.wood.steps import Step
from jigs.words.amounts import area_text, volume_text
from jigs.words.layup.steps import steps_section
from jigs.words.sections import Kind, Row, Section

_ON = {
    "flat": "the outer flats, through the depth",
    "end": "the ends, along the flat",
    "face": "the faces, along the tube or the height",
}
_HANDS = (
    "Other hand: the same block turned over before it goes on its rail, so that its back is the outer side."
)


AT_HAND = (
    "Plies are bought by the sheet: boards of the stock are not counted on for them. Sheets of these plies that are at "
    'hand stand in stock.sheets as "layup".'
)


def layup_sections(job: Job, layups: Sequence[LayupPlan], work: Sequence[Step]) -> list[Section]:
    """For each size of segment the pieces, the ways, the closings and the steps in their order.

    Of several sizes only the nearest closings are told, and the cautions once.
    """
    found: list[Section] = []
    several = len(layups) > 1
    if several:
        found.append(Section("Layup: plies to buy, for all rings", tuple(_bought(job, layups))))
    for layup in layups:
        of = "Layup" if not several else f"Layup, ring {', '.join(map(str, layup.rings))}"
        found += [_pieces(job, layup, of), _ways(job, layup, of), _seams(job, layup, of, several)]
        found.append(steps_section(job, layup, of, work, layup is layups[0]))
    return found


def _pieces(job: Job, layup: LayupPlan, of: str) -> Section:
    piece = layup.layup
    plies = zip(layup.names, piece.plies, strict=True)
    rows = (
        Row("sheet", ", ".join(f"{name} {show_length(thick, job.unit)}" for name, thick in plies), "text"),
        Row("its thickness", piece.sheet),
        Row("pattern on", _ON[layup.plane], "text"),
        Row("mirrored", layup.mirrored + (", pieces turned end for end" if layup.turned else ""), "text"),
        Row("angle of side a to the plies", degrees(piece.angle), "angle"),
        Row("side a as cut", piece.a),
        Row("side b as cut", piece.b),
        Row("depth (strip width as planed)", piece.depth),
        Row("side a, glued face sanded", layup.across),
        Row("side b, glued face sanded", layup.up),
        Row("segments", layup.segments, "count"),
        Row("spare segments", layup.spare_segments, "count"),
        Row("pieces in a segment", layup.per_segment, "count"),
        Row("of these, turned over", layup.turned_over, "count"),
        Row("pieces in all", layup.pieces, "count"),
        Row("spare pieces", layup.spares, "count"),
    )
    notes = ["All pieces are cut alike; a mirrored one is turned over, face for face."]
    if not isinstance(job, TorusJob) and len(layup.rings) > 1:
        wide, deep = (show_length(most, job.unit) for most in ALIKE)
        notes.append(
            f"These rings share one size, so one pair of sleds cuts them all: a ring is at most {wide} larger outside "
            f"and {deep} deeper than it has to be."
        )
    return Section(of, rows, tuple(notes))


def _ways(job: Job, layup: LayupPlan, of: str) -> Section:
    volumes = layup.volumes
    chosen, *others = layup.ways
    rows = (
        Row("chosen", _way_text(job, chosen), "text"),
        *(Row("other way", f"{_way_text(job, way)}{_against(chosen, way)}", "text") for way in others),
        Row("sheets to make", chosen.sheets, "count"),
        *_plies(job, layup, chosen),
        *([Row("strips from the last of them", chosen.last, "count")] if chosen.sheets > 1 else []),
        Row("strips from sheets at hand, or left of rings before", chosen.from_hand, "count"),
        Row("sheets used, wood", volumes.stock, "volume"),
        Row("pieces, spares among them", volumes.pieces + volumes.spares + volumes.more, "volume"),
        Row("cut away from the stacks, kerfs among it", volumes.stacks, "volume"),
        Row("trimmed off the sheets' edges and ends", volumes.trimmed, "volume"),
        Row("kerfs of the strips", volumes.kerf, "volume"),
        Row("planed off the strips", volumes.planed, "volume"),
        Row("left of the sheets", volumes.offcuts, "volume"),
    )
    return Section(f"{of}: ways", rows, (AT_HAND,))


def _plies(job: Job, layup: LayupPlan, way: StackWay) -> Iterator[Row]:
    """What the sheets are made of, ply by ply: what has to be bought."""
    wish = job.layup
    if wish is None or not way.sheets:
        return
    size = " x ".join(show_length(mm, job.unit) for mm in (wish.sheet_width, wish.sheet_length))
    plies = Counter(zip(layup.names, layup.layup.plies, strict=True))
    for (name, thick), each in plies.items():
        count = each * way.sheets
        area = area_text(count * wish.sheet_width * wish.sheet_length, job.unit)
        yield Row(f"for them, {name} {show_length(thick, job.unit)}", f"{count} of {size}, {area}", "text")


def _bought(job: Job, layups: Sequence[LayupPlan]) -> Iterator[Row]:
    """Of all sizes together; each size's sheets are ripped by themselves."""
    wish, sheets = job.layup, sum(layup.way.sheets for layup in layups)
    if wish is not None:
        size = " x ".join(show_length(mm, job.unit) for mm in (wish.sheet_width, wish.sheet_length))
        for ply, each in Counter((ply.name, ply.thickness) for ply in wish.plies).items():
            yield Row(f"{ply[0]} {show_length(ply[1], job.unit)}", f"{each * sheets} of {size}", "text")
        yield Row("sheets to make", sheets, "count")


def _way_text(job: Job, way: StackWay) -> str:
    def show(mm: float) -> str:
        return show_length(mm, job.unit)

    name = "pieces one by one" if way.kind == "one by one" else f"rows of {way.pieces}, {way.kind}"
    lean = f" staggered by {show(way.stagger)}" if way.stagger else ""
    return (
        f"{name}: {_several(way.stacks, 'stack')} of {_several(way.strips, 'strip')} {show(way.strip_length)} "
        f"long{lean}; {volume_text(way.wood, job.unit)} of strips, {_several(way.sheets, 'sheet')}, "
        f"{volume_text(way.waste, job.unit)} wasted, {way.cuts} cuts"
    )


def _against(chosen: StackWay, way: StackWay) -> str:
    """Why it is not taken, where it takes less wood."""
    if way.against is None or way.wood >= chosen.wood:
        return ""
    reason = {
        "more wood": "more of its sheets would have to be made",
        "more stacks": f"{way.stacks - chosen.stacks} stacks more to glue",
        "set back": "strips would have to be set back, and no sheet is saved",
        "short strips": "its strips are too short to be held by hand",
    }[way.against]
    return f"; less wood, but {reason}"


def _several(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def _seams(job: Job, layup: LayupPlan, of: str, several: bool) -> Section:
    low, high = layup.shown_up_range
    rows = [
        Row("repeat along a", *_length(layup.period_across)),
        Row("repeat along b", *_length(layup.period_up)),
        Row("of a, between seams of the finished form", layup.shown_across),
        Row("of b", layup.shown_up),
        Row("repeats along a", layup.repeats_across, "ratio"),
        Row("repeats along b", layup.repeats_up, "ratio"),
    ]
    if high > low:
        rows[4:4] = [Row("of b, at the hole", low), Row("of b, at the rim", high)]
    if layup.per_segment > 1:
        rows.append(Row("lost of the plies at the glued corner, by sanding", layup.seam_loss))
    rows += [
        Row(f"whole repeats by {_CHANGED[what]}", _closing_text(job, closing), "text")
        for what, group in groupby(layup.closings, key=lambda closing: closing.what)
        for closing in islice(group, 1 if several else None)
    ]
    rows += [
        Row(
            "segments alternate",
            "every other one the mirror image" if layup.alternate_segments else "no",
            "text",
        ),
        Row("rings alternate", "every other one the mirror image" if layup.alternate_rings else "no", "text"),
        Row("segments of the other hand", layup.seams.other_hand, "count"),
    ]
    return Section(f"{of}: pattern at the seams", tuple(rows), _seam_notes(job, layup))


_SEGMENT = {  # by whether it is a torus's: what changes a and b
    True: "form.segments and form.ring_across_flats along a, form.wedge_rings along b",
    False: "rings.segments along a, rings.heights along b",
}
_CHANGED = {
    "angle": "another angle (layup.angle)",
    "ply thickness": "other plies (layup.plies)",
    "angle and plies": "another angle and plies",
    "segment": "another segment",
}


def _length(mm: float) -> tuple[float | str, Kind]:
    return ("none, the plies run along it", "text") if isinf(mm) else (mm, "length")


def _closing_text(job: Job, closing: Closing) -> str:
    def show(mm: float) -> str:
        return show_length(mm, job.unit)

    repeats = " and ".join(f"{n} along {side}" for n, side in ((closing.i, "a"), (closing.j, "b")) if n)
    where = f" {show(closing.radius)} from the axis" if closing.radius is not None else ""
    return (
        f"{repeats}: {degrees(closing.angle):.2f}°, sheet {show(closing.repeat)}, "
        f"{show(closing.across)} of a and {show(closing.up)} of b{where}"
    )


def _seam_notes(job: Job, layup: LayupPlan) -> tuple[str, ...]:
    notes = [
        "Lines kink at a seam and meet; a segment off its place by so much makes them slip by twice that."
    ]
    if layup.shown_up_range[0] < layup.shown_up_range[1]:
        notes.append("Along the tube a pattern ends whole at one distance from the axis only.")
    if any(closing.what == "segment" for closing in layup.closings):
        notes.append(f"Another segment: by {_SEGMENT[isinstance(job, TorusJob)]}.")
    if layup.seams.other_hand:
        notes.append(_HANDS)
    elif layup.alternate_segments or layup.alternate_rings:
        notes.append("The mirror image is the same segment turned about its radial line, top for bottom.")
    return tuple(notes)
