"""Gauges on the work, cut through the axis: x is the radius, y the height over the tube's centre."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from geometry.records import replace
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, area, line, moved, tube
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, labelled, pieces_of
from jigs.figures.turning.mountings import mounting_c, mounting_d
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.stages.gauging.plan.torus import Stage


def figures(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """The profile gauges of each stage, then the standing ones."""
    for stage in plan.gauges.stages:
        pair = [part for side in ("outer", "hole") for part in pieces_of(parts, f"{side}-gauge-{stage.name}")]
        yield _profile(plan, pair, stage, show)
    standing = [part for name, part in parts.items() if name.startswith("standing-gauge-a-")]
    if standing:
        yield _standing(plan, standing, parts["first-board-section"], show)
    for name, id, mounted in (
        ("c-inner", "braced_mounting.turn", mounting_c),
        ("d-outer", "last_mounting.turn", mounting_d),
    ):
        gauge = pieces_of(parts, f"standing-gauge-{name}")
        yield _in_mounting(plan, mounted(plan, parts, show), gauge, id)


def _profile(plan: TorusPlan, gauges: list[Part], stage: Stage, show: Show) -> Figure:
    major = plan.job.form.major_radius
    edge, radius = stage.edge, stage.edge.wide
    shape = (
        by_calliper(show, radius)
        if edge.round
        else f"{by_calliper(show, 2 * radius)} wide, {by_calliper(show, 2 * edge.high)} high"
    )
    board = -plan.mountings.first.centre_height
    items: list[Item] = [
        tube(edge, major, fill="wood"),
        line((major - 2.2 * radius, board), (major + 2.6 * radius, board), width=0.5),
    ]
    items += _plates(gauges, major)
    items.append(
        Callout(f"R {shape}" if edge.round else shape, (major + 0.8 * radius, -0.6 * edge.high), "right")
    )
    items.append(Callout("first board's face", (major - 2.0 * radius, board), "left"))
    items.append(Callout("tube", (major - 0.4 * radius, -0.5 * edge.high), "left"))
    return Figure(
        f"gauging.{stage.name}",
        "The gauges of this stage on the work",
        "The outer gauge from the rim over the face, the hole gauge from the hole over the face; both edges "
        f"{'have a radius of' if edge.round else 'are of an ellipse'} {shape}. The lathe stands still.",
        tuple(items),
        height=95.0,
    )


def _standing(plan: TorusPlan, gauges: list[Part], section: Part, show: Show) -> Figure:
    major, height = plan.job.form.major_radius, plan.mountings.first.centre_height
    edge = plan.gauges.stages[-1].edge
    x0, _, rim, _ = section.outline.bounds
    items: tuple[Item, ...] = (
        area(section.outline, fill="jig"),
        tube(edge, major, fill="wood"),
        *_plates(gauges, major),
        line((0.0, -height - 30), (0.0, 2.5 * edge.high), dashes=CENTRE_LINE),
        Dimension((rim, -height), (rim, 0.0), by_calliper(show, height), -8.0),
        line((major, 0.0), (rim, 0.0), paint="grey", dashes=CENTRE_LINE),
        labelled("first board", "support-board-layer", (x0 + 15, -height - 8), "left"),
        Callout("axis of the lathe", (0.0, 2.3 * edge.high), "left"),
    )
    return Figure(
        "gauging.standing",
        "The standing gauges on the first board",
        "Each stands with its foot on the board's face, its edge on the finished side: outside at the rim, inside in "
        "the hole.",
        items,
        height=105.0,
    )


def _in_mounting(plan: TorusPlan, mounted: Figure, gauge: list[Part], id: str) -> Figure:
    """The standing gauge on the channel board, its edge where the wood is turned to."""
    return replace(
        mounted,
        id=id,
        title=f"The standing gauge in its place. {mounted.title}",
        alt=f"{mounted.alt} The gauge stands on the board, its edge on the finished side; the lathe stands still.",
        items=(*mounted.items, *_plates(gauge, plan.job.form.major_radius)),
    )


def _plates(gauges: list[Part], major: float) -> tuple[Item, ...]:
    found: list[Item] = []
    for part in gauges:
        x0, y0, x1, y1 = part.outline.bounds
        found += moved(
            (area(part.outline, fill="jig"), *(area(hole, fill="paper") for hole in part.holes)), major, 0.0
        )
        outer = "outer" in part.name
        kind = "standing gauge" if "standing" in part.name else "outer gauge" if outer else "hole gauge"
        at = (major + (0.9 * x1 if outer else 0.9 * x0), 0.75 * y1 + 0.25 * max(0.0, y0))
        found.append(labelled(kind, part.name, at, "right" if outer else "left"))
    return tuple(found)
