"""What is set at the saws, in words: which saw cuts what, the segments' carrier, the sled for flat rings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import degrees, floor

from geometry.bandsaw_sled import BandsawLayout
from geometry.hold_down import PIN_CLEAR
from jigs.cautions import told
from jigs.job import Unit
from jigs.lengths import show_length
from jigs.plan import Plan
from jigs.plan.held import HeldCut
from jigs.plan.torus import TorusPlan
from jigs.words.sections import Row, Section

_HOLDS = (
    "Before each cut: both levers level and tight, pins in the wood, strip and segment each under its own hold-down. "
    "Tug at both pieces; what moves is not cut. Pins are brass, never steel: the blade passes {clear} from them.",
    "Feel the abrasive paper before each session: renew it when it is smooth. The pieces are held by it.",
)


def holds(unit: Unit) -> tuple[str, ...]:
    """What to look at before each cut on a sled for strips."""
    return tuple(text.format(clear=show_length(PIN_CLEAR, unit)) for text in _HOLDS)


def saw_sections(plan: TorusPlan) -> list[Section]:
    """The saws, then what carries segments: their carrier and, if asked for, the sled for flat rings."""
    return [_saws(plan), _carrier(plan), *_plan_angle(plan)]


def _saws(plan: TorusPlan) -> Section:
    cutting, shop = plan.cutting, plan.job.workshop
    rows = [
        Row("wedge rings are cut on the", cutting.rings_on, "text"),
        Row("blade height needed above the table, for rings", plan.sled.saw_height),
        Row("segments are cut on the", cutting.segments_on, "text"),
        Row(
            "blade height needed along the tilted blade, for segments",
            cutting.segments_need,
        ),
        Row("table saw gives", shop.saw.blade_height),
        Row("its blade's top tilts to the", plan.job.tilts_text, "text"),
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
            *held_rows(plan.cutting.held),
            *time_rows(plan.cutting.seconds, segments_cut(plan)),
        ),
        (
            *holds(plan.job.unit),
            "Outer edge up on the kept side; strip turned over after each cut; stop swung clear before the cut.",
            *told(*_cautions(plan)),
        ),
    )


def _cautions(plan: TorusPlan) -> tuple[str, ...]:
    if plan.cutting.segments_on == "bandsaw":
        return ("bandsaw.power", "bandsaw.guides", "bandsaw.clear", "saw.bin")
    return ("saw.power", "saw.clear", "saw.manual", "saw.bin")


def held_rows(cuts: Iterable[HeldCut]) -> tuple[Row, ...]:
    """Each piece while it is sawn."""
    least: dict[str, HeldCut] = {}
    for cut in cuts:
        least[cut.what] = min(least.get(cut.what, cut), cut, key=lambda one: one.grip)
    return tuple(
        Row(
            f"{cut.what}, held",
            f"against {floor(100 * cut.grip) / 100:.2f} times the cut's push, by friction and pins together",
            "text",
        )
        for cut in least.values()
        if cut.held
    )


def time_rows(seconds: float, segments: int) -> tuple[Row, ...]:
    """An estimate, so that an afternoon can be planned."""
    minutes = seconds * segments / 60
    return (
        Row("time for each segment, estimate", f"{seconds:.0f} seconds", "text"),
        Row(f"for {segments} with spares, estimate", f"{minutes / 60:.1f} hours", "text"),
    )


def segments_cut(plan: Plan, rings: Sequence[int] | None = None) -> int:
    """Segments with spares, of some rings or of all, from strips and from layups."""
    strips = [lot for lot in plan.wood.lots if lot.way in ("turned over", "slid across")]
    cut = sum(lot.wanted for lot in strips if rings is None or set(lot.rings) <= set(rings))
    return cut + sum(one.blocks for one in plan.layups if rings is None or set(one.rings) <= set(rings))


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
            (
                *holds(plan.job.unit),
                "The joint plate, twice the mitre angle, proves the fences; stop swung clear before the cut.",
            ),
        )
    ]
