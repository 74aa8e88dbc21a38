"""Cutting flat rings and staves in words and tables."""

from __future__ import annotations

from math import degrees

from jigs.cautions import SHORT
from jigs.families.labels import SAW_NOTES
from jigs.job import Unit
from jigs.lengths import show_length
from jigs.plan.vessel import VesselPlan
from jigs.plan.vessel.saws import FlatSled, StopSetting
from jigs.words.saws import held_rows, holds, segments_cut, time_rows
from jigs.words.sections import Row, Section
from jigs.words.vessel.numbers import rings_text
from jigs.words.wood.numbers import sizes

OPEN = (
    "Open rings: no halves and no band; segments are glued one by one on the flattened course below, round the "
    "centring plate, and each course is flattened before the next.",
    "Turning open rings: edges catch tools, cloth and fingers. Lowest speed, light cuts, fingers away; the lathe is "
    "stopped for sanding.",
)
CLOSED = ("Segments to halves, halves trued to one plane, halves to rings; faces flattened, then the stack.",)
HELD = (
    "1. Grain along the stave, ends sawn square. Each piece lies on the stave sled, in the corner of a stop, under the "
    "hold-down, its points in the wood. Pieces under {short} are never held by hand. Tug at the piece before each cut; "
    "what moves is not cut."
)
SET = (
    "2. Tilt the blade by its plate, the sled off the table. The piece lies on the side that the blade leans away "
    "from, for both edges, its outer face up: the face that comes out wider."
)
SCRAP = "5. A full set in scrap, dry in a band, closes without light before good wood is cut."


def saw_sections(plan: VesselPlan) -> list[Section]:
    """One section for each sled, then the staves."""
    staves = [_staves(plan)] if plan.saws.staves else []
    return [*(_sled(plan, sled) for sled in plan.saws.sleds), *staves]


def _sled(plan: VesselPlan, sled: FlatSled) -> Section:
    layout = sled.layout
    rows = [
        Row("fences off square (mitre angle)", degrees(layout.mitre), "angle"),
        Row("fence to fence", 2 * degrees(layout.mitre), "angle"),
        Row("blade above the table", layout.saw_height),
    ]
    for setting in sled.settings:
        rows += _setting(plan, setting)
    rows += _spacers(plan, sled)
    rows += held_rows(sled.held)
    rings = [number for setting in sled.settings for number in setting.rings]
    rows += time_rows(sled.seconds, segments_cut(plan, rings))
    return Section(
        f"Cutting rings of {sled.segments} segments",
        tuple(rows),
        (
            "Blade upright; strip flat, first cut on one fence, then slid across to the other, the same face up; "
            "the stop on the kept side only, swung clear before the cut.",
            *holds(plan.job.unit),
            "A test ring in scrap before good wood; halves dry on the check before any glue.",
            "Counts here are without spares; the cut list has those too.",
            f"Pieces under {SHORT[plan.job.unit]} are never held by hand: hold-down or jaws.",
            *SAW_NOTES,
        ),
    )


def _setting(plan: VesselPlan, setting: StopSetting) -> list[Row]:
    unit = plan.job.unit
    stop = Row(
        f"{rings_text(setting.rings)}: stop from the blade, by its stick",
        f"{show_length(setting.stop, unit)} for an outer edge of {show_length(setting.outer_edge, unit)}",
        "text",
    )
    strips = [
        Row(
            f"{rings_text(strip.rings)}: strip",
            f"{show_length(strip.thickness, unit)} thick, {show_length(strip.width, unit)} wide, "
            f"{strip.pieces} segments from {show_length(strip.length, unit)} at least",
            "text",
        )
        for strip in setting.strips
    ]
    return [stop, *strips]


def _spacers(plan: VesselPlan, sled: FlatSled) -> list[Row]:
    """Strips that stand between the segments of this sled's rings, as the cut list has them."""
    rings, unit = {ring for setting in sled.settings for ring in setting.rings}, plan.job.unit
    return [
        Row(
            f"{rings_text(lot.rings)}: strips between segments",
            f"{lot.count} of {lot.species}, {sizes((lot.width, lot.thickness, lot.longer), unit)}, "
            f"trimmed after gluing; lot {lot.number}",
            "text",
        )
        for lot in plan.wood.lots
        if lot.piece == "spacer" and rings & set(lot.rings)
    ]


def _staves(plan: VesselPlan) -> Section:
    cut, band = plan.saws.staves, plan.stack.staves_cut
    if cut is None or band is None:
        raise ValueError("this vessel has no staves")
    narrows = "narrow end up" if cut.gauge_angle < 0 else "wide end up" if cut.gauge_angle > 0 else "upright"
    return Section(
        f"Cutting {cut.count} staves",
        (
            Row("blade tilt", degrees(cut.blade_tilt), "angle"),
            Row("the blade's top tilts to the", plan.job.tilts_text, "text"),
            Row("taper of each edge, in the stops", abs(degrees(cut.gauge_angle)), "angle"),
            Row("staves lean from upright", degrees(band.lean), "angle"),
            Row("thickness", cut.thickness),
            Row("width at the foot", band.outer_width(band.low)),
            Row("width at the top", band.outer_width(band.high)),
            Row("length along the face", band.slant_length),
            Row("board for each, ripped over size, width", cut.board[0]),
            Row("board for each, ends square, length", cut.board[1]),
            Row("flattened off both ends of the band together", plan.job.rings.flattening),
            Row("ends cut, off square to the face", abs(degrees(band.lean)), "angle"),
            Row("blade above the table, along it", cut.saw_height),
            *held_rows(cut.held),
            Row("time for both edges of a stave, estimate", f"{cut.seconds:.0f} seconds", "text"),
        ),
        (
            *stave_steps(cut.gauge_angle, plan.job.unit),
            f"As they stand: {narrows}. Both ends of the glued band are flattened level before a ring goes on.",
            *SAW_NOTES,
        ),
    )


def stave_steps(gauge_angle: float, unit: Unit) -> tuple[str, ...]:
    """How both edges are cut; a gauge angle below 0 is of staves that narrow upward."""
    wide, narrow = ("lower", "upper") if gauge_angle < 0 else ("upper", "lower")
    ends = ("its wide end, which will be the {0} one,", "the narrow end, the {1} one,")
    if not gauge_angle:
        ends = ("one end", "the other end")
    first, second = (end.format(wide, narrow) for end in ends)
    return (
        HELD.format(short=SHORT[unit]),
        SET,
        f"3. First edges, all of them, in stop 1: {first} on the toe, the edge as ripped along the stop.",
        f"4. Second edges in stop 2: the same face down, the piece turned end for end, not over, or its bevel leans "
        f"the wrong way; {second} on the toe, the sawn edge along the stop, which sets the width.",
        SCRAP,
    )


def glue_up_section(plan: VesselPlan) -> Section:
    """Boards, halves, bands, plates."""
    stack, boards = plan.stack, plan.boards
    bands = tuple(Row(f"{rings_text(band.rings)}: clamp band", band.length) for band in plan.wood.glue.bands)
    told = []
    open_ = {layer.number for layer in stack.layers if layer.kind == "open"}
    if closed := [number for number in boards.uncentred if number not in open_]:
        told.append(
            f"{rings_text(closed).capitalize()}: the opening is too small for a centring plate; centre the "
            "ring by its corners against the marks of the one below."
        )
    if small := [number for number in boards.uncentred if number in open_]:
        told.append(
            f"{rings_text(small).capitalize()}: the opening is too small for a centring plate; draw the segments' "
            "places on the course below."
        )
    if boards.whole:
        told.append(f"{rings_text(boards.whole).capitalize()}: an odd count has no halves; glue it whole.")
    if open_:
        told += OPEN
    return Section(
        "Gluing rings",
        (Row("sanded off each end of a segment", plan.job.rings.joint_sanding), *bands),
        (
            *told,
            *(CLOSED if any(layer.kind == "segments" for layer in stack.layers) else ()),
            "One hour in clamps, 24 hours before turning, or as the glue's maker says. Common practice.",
            "Dust of sanding: extraction and mask.",
        ),
    )
