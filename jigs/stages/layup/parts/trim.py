"""The square sled that trims slabs to pieces, and its stops. Plan coordinates as in its layout."""

from __future__ import annotations

from math import degrees

from geometry.plane.contour import polygon
from jigs.parts.part import Part, Point
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, middle
from jigs.parts.sleds import stop_sled
from jigs.parts.sleds.angles import show_degrees
from jigs.plans.plan import Plan
from jigs.stages.layup.layout.trim import TrimSledLayout
from jigs.stages.layup.plan import LayupJigs, LayupPlan
from jigs.words.lengths import show_length

SPARE_STOP = "The other square stop trims a slab that was cut too wide, the pieces' ends against the fence."
HEAD = "layup-trim"


def trim_sled(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> list[Part]:
    """Base, fence, hold-down, exit block, runner, handle; a slanted stop and a square one for each side."""
    sled, end = jigs.trim, jigs.suffix
    stops = [_slanted_stop(plan, sled, end)] if sled.slanted else []
    stops += [_square_stop(plan, sled, *side, end) for side in _sides(layup)]
    return [
        _base(plan, layup, jigs),
        *stop_sled.holding(plan, sled, HEAD, end, "piece"),
        *stops,
        *stop_sled.sliding(plan, sled, HEAD, end),
    ]


def _sides(layup: LayupPlan) -> list[tuple[str, float]]:
    """The trimmed side first: its name and length."""
    cut = layup.way.cut
    return [(cut, layup.way.slab_length), ("b" if cut == "a" else "a", layup.way.slab)]


def _base(plan: Plan, layup: LayupPlan, jigs: LayupJigs) -> Part:
    length = show_length(jigs.trim.length, plan.job.unit, exact=True)
    sled = f"LAYUP TRIM SLED, SIDE {layup.way.cut.upper()} {length.upper()}"
    plate = stop_sled.base(plan, jigs.trim, (sled, "HOLD-DOWN ON THE PIECE", "WASTE SIDE STAYS FREE"))
    purpose = "carries slabs past the upright blade, square"
    return plate.part(f"layup-trim-base{jigs.suffix}", purpose, (SPARE_STOP,))


def _stop(plan: Plan, sled: TrimSledLayout, low: Point, high: Point) -> Plate:
    """In the base's coordinates; its working edge runs from `low` at the fence to `high`."""
    return Plate(plan, polygon([(sled.stop_left, low[1]), low, high, (sled.stop_left, high[1])]))


def _finished(plate: Plate, sled: TrimSledLayout, name: str, *says: str) -> Part:
    stop_sled.add_pins(plate, sled)
    plate.letter(*says, "FENCE ↓", *SAW_CAUTION, titled=False)
    return plate.part(name, "what the slab's end butts against, on the side that is held")


def _slanted_stop(plan: Plan, sled: TrimSledLayout, end: str) -> Part:
    low, high = ((sled.slanted_at(y), y) for y in sled.stop_depth)
    plate = _stop(plan, sled, low, high)
    plate.angle("fence to slanted edge", degrees(sled.slant), (sled.stop_left + 5, low[1]), middle(low, high))
    plies = f"PLIES {show_degrees(sled.slant)}"
    return _finished(plate, sled, f"layup-slanted-stop{end}", "FIRST CUT", plies)


def _square_stop(plan: Plan, sled: TrimSledLayout, side: str, length: float, end: str) -> Part:
    low, high = ((-length, y) for y in sled.stop_depth)
    plate, rear = _stop(plan, sled, low, high), (sled.stop_left, sum(sled.stop_depth) / 2)
    plate.gap("edge to rear", -length - sled.stop_left, (-length, rear[1]), rear)
    shown = show_length(length, plan.job.unit, exact=True).upper()
    return _finished(plate, sled, f"layup-square-stop-{side}{end}", f"STOP {side.upper()}", shown)
