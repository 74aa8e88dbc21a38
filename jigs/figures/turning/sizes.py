"""Sizes taken of the turning work, the lathe stopped: of a torus, forks and sticks in their places; of a vessel, a gap
gauge over it, and callipers set by a stick."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from math import pi
from typing import TypeVar

from geometry.lathe.size_gauges import reach, shoulder_height, step_lengths
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Shape, arc, area, disc, line, moved, tube
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, by_rule, labelled, pieces_of
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.sizes.parts.gap_gauges import PAST as GAP_PAST
from jigs.stages.sizes.parts.gap_gauges import gap_radius
from jigs.stages.sizes.parts.sticks import BAND
from jigs.stages.sizes.plan.torus import SizeStage
from jigs.stages.sizes.plan.vessel import CalliperStick, GapGauge, StageSize

One = TypeVar("One", GapGauge, CalliperStick)

PAST = 10.0  # mm of an axis past all else
APART = 14.0  # mm between two drawings of a figure
JAW = 14.0  # mm of a calliper's jaws past the stick


def of_torus(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """The first stage's: x is the radius, y the height over the tube's centre."""
    stage, own = plan.sizes.stages[0], plan.sizes
    many = "-1" if len(own.groups) > 1 else ""
    fork, stick = f"width-fork{many}", f"hole-stick{many}"
    major, board = plan.job.form.major_radius, -plan.mountings.first.centre_height
    rise = _rise(own.groups[0])
    over = _top(parts, fork) + rise + APART + _top(parts, "outer-stick")
    out = stage.outer
    return Figure(
        "roughing.sizes",
        "The first sizes, cut through the axis",
        "The width fork stands over the tube, a leg through the hole. The hole stick stands across the hole. The outer "
        "stick lies across the front: sight along the axis over both its ends.",
        (
            *(tube(stage.tube, side * major, fill="wood") for side in (-1, 1)),
            line((-out - 20, board), (out + 20, board), width=0.5),
            *moved(_drawn(parts, fork), major, rise),
            *moved(_drawn(parts, stick), 0.0, rise),
            *moved(_drawn(parts, "outer-stick"), 0.0, over),
            line((0.0, board - PAST), (0.0, over), dashes=CENTRE_LINE),
            Dimension((-out, 0.0), (out, 0.0), by_rule(show, 2 * out), -16.0, board),
            Dimension((-stage.hole, 0.0), (stage.hole, 0.0), by_rule(show, 2 * stage.hole), -8.0, board),
            labelled("width fork", fork, (major + stage.tube.wide + own.leg / 2, 0.5 * own.above), "right"),
            labelled("hole stick", stick, (-0.5 * stage.hole, -2.0), "left"),
            labelled("outer stick, from the front", "outer-stick", (0.9 * out, over), "right"),
            Callout("first board's face", (-out - 12, board), "left"),
            Callout("tube", (-major - 0.5 * stage.tube.wide, 0.4 * stage.tube.high), "left"),
        ),
        height=125.0,
    )


def _rise(group: Sequence[SizeStage]) -> float:
    """How much higher a fork stands while only its first step has gone on, its second resting on the wood."""
    tubes = [stage.tube for stage in group]
    if len(tubes) < 2:
        return 0.0
    return shoulder_height(tubes[0], tubes[1]) + reach(tubes) - step_lengths(tubes)[0]


def of_vessel(plan: VesselPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """At the stations of each stage that has any: the first gap gauge and the first stick; those of a stem apart."""
    for of, (number, stage) in product(("outside", "stem"), enumerate(plan.gauges.stages, 1)):
        first = [_over(gap, size, parts, show) for gap, size in _first(plan, plan.sizes.gaps, of, number)]
        first += [
            _set(stick, size, parts, show) for stick, size in _first(plan, plan.sizes.sticks, of, number)
        ]
        if first:
            right = max(item.box[2] for item in first[0] if isinstance(item, Shape))
            items = [
                *first[0],
                *(item for more in first[1:] for item in moved(more, right + APART + JAW, 0.0)),
            ]
            yield Figure(
                f"{of}.{stage.name}-stations",
                "The size at a station",
                "The lathe stands still. A gap gauge goes over the work from the side. Outside callipers are set by "
                "their step of the stick, away from the work, and must pass over it.",
                tuple(items),
                height=100.0,
            )


def _first(plan: VesselPlan, every: Sequence[One], of: str, number: int) -> list[tuple[One, StageSize]]:
    here = (one for one in every if (one.station.height < plan.stem_top) == (of == "stem"))
    return [(one, size) for one in here for size in one.sizes if size.number == number][:1]


def _slug(name: str) -> str:
    return name.replace(" ", "-")


def _drawn(parts: Mapping[str, Part], name: str) -> tuple[Item, ...]:
    return tuple(area(part.outline, fill="jig") for part in pieces_of(parts, name))


def _top(parts: Mapping[str, Part], name: str) -> float:
    return max(part.outline.bounds[3] for part in pieces_of(parts, name))


def _over(gap: GapGauge, size: StageSize, parts: Mapping[str, Part], show: Show) -> tuple[Item, ...]:
    """The gauge over the work, seen along the axis: GO is its lower gap, NOT YET the upper."""
    name, r, go = f"gap-gauge-{_slug(gap.station.name)}", size.diameter / 2, size is gap.go
    top = _top(parts, name) - (gap_radius(gap, gap.before) + GAP_PAST if gap.before else 0.0)
    way, y = (-1, -r) if go else (1, top + r)
    across = Dimension(
        (-r, y), (r, y), f"Ø {by_calliper(show, size.diameter)}", way * 8.0, way * (r + GAP_PAST)
    )
    return (
        *_drawn(parts, name),
        disc((0.0, y), r, fill="wood"),
        across,
        labelled("gap gauge", name, (2 - gap.reach, top / 2), "left"),
        Callout("GO" if go else "NOT YET", (-gap.reach + gap.leg / 2, y), "left"),
        Callout(f"work, {gap.station.name}", (-0.5 * r, y + 0.4 * r), "left"),
    )


def _set(stick: CalliperStick, size: StageSize, parts: Mapping[str, Part], show: Show) -> tuple[Item, ...]:
    """The stick, and callipers from its straight end to the step."""
    name = f"calliper-stick-{_slug(stick.station.name)}"
    k = stick.sizes.index(size)
    y, far = BAND * (k + 0.5), size.diameter
    middle, round_ = far / 2, far / 2 + JAW
    rise = _top(parts, name) + JAW
    jaws = [
        line((x, y), (x + side * JAW, y + JAW / 2), (x + side * JAW, rise), paint="metal", width=0.9)
        for x, side in ((0.0, -1), (far, 1))
    ]
    return (
        *_drawn(parts, name),
        *jaws,
        arc((middle, rise), round_, 0.0, pi, paint="metal", width=0.9),
        Dimension((0.0, y), (far, y), by_calliper(show, far), -8.0, _low(parts, name) - y),
        labelled("stick", name, (0.8 * far, 0.4 * _low(parts, name)), "right"),
        Callout("callipers", (far + JAW, rise), "right"),
    )


def _low(parts: Mapping[str, Part], name: str) -> float:
    return min(part.outline.bounds[1] for part in pieces_of(parts, name))
