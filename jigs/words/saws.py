"""What is set at the saws, in words: which saw cuts what, the segments' carrier, the sled for flat rings."""

from __future__ import annotations

from math import degrees

from geometry.bandsaw_sled import BandsawLayout
from jigs.families.segment_stop import notes
from jigs.plan.torus import TorusPlan
from jigs.words.sections import Row, Section


def saw_sections(plan: TorusPlan) -> list[Section]:
    """The saws, then what carries segments: their carrier and, if asked for, the sled for flat rings."""
    if not plan.job.mitred:
        return [_saws(plan)]
    return [_saws(plan), _carrier(plan), *_plan_angle(plan)]


def _saws(plan: TorusPlan) -> Section:
    cutting, shop = plan.cutting, plan.job.workshop
    rows = [
        Row("wedge rings are cut on the", cutting.rings_on, "text"),
        Row("it has to give, above its table", plan.sled.saw_height),
        Row(f"{'segments' if plan.job.mitred else 'staves'} are cut on the", cutting.segments_on, "text"),
        Row("it has to give, along the tilted blade", cutting.segments_need),
        Row("table saw gives", shop.saw.blade_height),
    ]
    if shop.bandsaw.height is not None:
        rows.append(Row("bandsaw gives, under its guides", shop.bandsaw.height))
    return Section("Saws", (*rows, *(_guide(plan) if cutting.bandsaw_used else ())))


def _guide(plan: TorusPlan) -> tuple[Row, ...]:
    guide = plan.cutting.guide
    near, far = guide.rail_widths
    rows = (
        Row("drift, + to the left", degrees(guide.drift), "angle"),
        Row("rail on the table's edge, length", guide.rail_length),
        Row("its width at the table's front", near),
        Row("its width at the far end", far),
    )
    if not isinstance(plan.sled, BandsawLayout):
        return rows
    return (*rows, Row("sled beside the blade, of the throat", -plan.sled.left_edge))


def _carrier(plan: TorusPlan) -> Section:
    layout = plan.cutting.carrier
    return Section(
        "Segment carrier",
        (
            Row("stop from the blade's kept side, at the base's top", layout.stop),
            Row("outer edge as cut", layout.cut.outer_edge),
            Row("inner edge as cut", layout.cut.inner_edge),
            Row("stop's arm raised by", layout.packings * layout.sheet),
        ),
        (
            "Outer edge up on the kept side; strip turned over after each cut; stop swung clear before the cut.",
            *notes(plan),
        ),
    )


def _plan_angle(plan: TorusPlan) -> list[Section]:
    layout = plan.cutting.plan_angle
    if layout is None:
        return []
    return [
        Section(
            "Sled for flat rings",
            (
                Row("each fence off square", degrees(layout.mitre), "angle"),
                Row("fence to fence", 2 * degrees(layout.mitre), "angle"),
                Row("stop from the blade's kept side, square to it", layout.stop),
                Row("outer edge as cut", layout.outer_edge),
                Row("blade height above the table", layout.saw_height),
            ),
            ("The joint plate, twice the mitre angle, proves the fences; stop swung clear before the cut.",),
        )
    ]
