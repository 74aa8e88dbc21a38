"""A vessel on the lathe, cut through the axis: on its faceplate, then reversed. x is the radius, y the height."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import inf

import numpy as np

from geometry.hardware.fittings import called
from geometry.plane.contour import Contour
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Shape, area, box, line, upside_down
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, labelled
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.holding_by_mouth.plan import MouthPlug

ON_AXIS = 1e-6  # mm
PLATE = 10.0  # mm of the faceplate's thickness shown
BLOCK = 18.0  # mm of the waste block's height shown
PAST = 12.0  # mm of the axis past all else
CENTRE = 26.0  # mm of the tailstock's point shown


def figures(plan: VesselPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """Upright, then by its mouth where a plug holds it, then its gauges."""
    yield _upright(plan, show)
    if plan.reversing.plug and "mouth-plug-section" in parts:
        yield _reversed(plan, plan.reversing.plug, parts["mouth-plug-section"], show)
    yield from gauged(plan, parts)


def _upright(plan: VesselPlan, show: Show) -> Figure:
    stack, section = plan.stack, plan.section
    across = stack.waste_across[1] / 2
    base = stack.bottom - BLOCK
    top = (0.0, stack.top + PAST)
    side = stack.largest_radius
    return Figure(
        "vessel.first-mounting",
        "The stack on the faceplate, cut through the axis",
        "The stack is glued to a waste block on the faceplate. What is hatched is turned away, outside and inside.",
        (
            *_wood(plan),
            *(area(one, fill="wood") for one in both(section.contour)),
            box(-across, base, across, stack.bottom, fill="waste"),
            box(-across, base - PLATE, across, base, fill="metal"),
            line((0.0, base - PLATE - PAST), top, dashes=CENTRE_LINE),
            Dimension((-side, 0.0), (-side, section.height), by_calliper(show, section.height), 7.0),
            Callout("faceplate", (-across * 0.8, base - PLATE / 2), "left"),
            Callout("waste block", (-across * 0.8, base + BLOCK / 2), "left"),
            Callout("axis of the lathe", (0.0, top[1] - 3), "right"),
            *_rings(plan),
        ),
        height=125.0,
    )


def _reversed(plan: VesselPlan, plug: MouthPlug, section: Part, show: Show) -> Figure:
    """Upside down: the faceplate below, the foot above."""
    body = [upside_down(one) for one in both(plan.section.contour)]
    own = [upside_down(one) for one in both(section.outline)]
    low = -plug.back
    foot = -plan.stack.bottom if not plug.bolt else 0.0
    across, word = plan.stack.waste_across[0] / 2, plan.job.called
    tail: tuple[Item, ...] = ()
    if plug.bolt is None:
        point = [
            (0.0, foot),
            (7.0, foot + 12),
            (7.0, foot + CENTRE),
            (-7.0, foot + CENTRE),
            (-7.0, foot + 12),
        ]
        tail = (
            Shape(tuple((x, y, 0.0) for x, y in point), closed=True, fill="metal"),
            Callout("tailstock", (5.0, foot + CENTRE - 5), "right"),
        )
    bolt: tuple[Item, ...] = ()
    if plug.bolt:
        half, washer = plug.hole / 2, plug.bolt.washer / 2
        bolt = (
            box(-half, low - PLATE, half, 12.0, fill="metal"),
            box(-washer, 0.0, washer, 3.0, fill="metal"),
            Callout(f"bolt {called(plug.bolt.thread)}, washer", (half, 9.0), "right"),
        )
    return Figure(
        "vessel.reversed",
        f"The {word.whole} reversed on its plug, cut through the axis",
        f"The plug on the faceplate holds the {word.whole} by its {word.mouth}; the {word.foot} is turned.",
        (
            *(area(one, fill="pale") for one in own),
            *(area(one, fill="wood") for one in body),
            *((box(-across, 0.0, across, foot, fill="turned"),) if foot > 0 else ()),
            box(-plug.flange, low - PLATE, plug.flange, low, fill="metal"),
            *tail,
            *bolt,
            line((0.0, low - PLATE - PAST), (0.0, foot + CENTRE + PAST), dashes=CENTRE_LINE),
            Dimension(
                (-plug.flange, low), (plug.flange, low), by_calliper(show, 2 * plug.flange), -8.0, -PLATE
            ),
            labelled("plug", "mouth-plug-layer", (plug.flange * 0.3, -plug.tip - 3), "right"),
            labelled(
                "flange", "mouth-plug-flange-layer", (plug.flange - 4, -(plug.face + plug.back) / 2), "right"
            ),
            Callout("faceplate", (-plug.flange * 0.8, low - PLATE / 2), "left"),
            Callout(f"{word.foot}, turned now", (-across * 0.6, foot * 0.5), "left"),
        ),
        height=125.0,
    )


def gauged(plan: VesselPlan, parts: Mapping[str, Part]) -> Iterator[Figure]:
    """The profile gauges of each stage in their places, on the rail outside; over a stem twice, before and after."""
    for stage in plan.gauges.stages:
        for of in ("outside", "inside", *(("stem",) if plan.stack.stemmed else ())):
            where, thick = "inside" if of == "inside" else "outside", -inf if of == "stem" else plan.stem_top
            head = f"{where}-gauge-{stage.name}"
            gauges = [part for name, part in parts.items() if name == head or name.startswith(f"{head}-")]
            if of == "outside":
                gauges = [part for part in gauges if part.outline.bounds[1] > thick - ON_AXIS] or gauges
            rail = parts.get("gauge-rail") if where == "outside" else None
            if gauges:
                yield _gauge(plan, f"{of}.{stage.name}", where, gauges, rail, thick)


def _gauge(
    plan: VesselPlan, id: str, where: str, gauges: list[Part], rail: Part | None, thick: float
) -> Figure:
    """Under the height `thick` the wood is as it was glued."""
    section, under = plan.section, [one for one in plan.stack.layers if one.ring.bottom < thick]
    items: list[Item] = [
        area(half, fill="wood") for one in under for half in both(plan.stack.cut_through(one))
    ]
    items += [area(one, fill="wood") for one in both(section.contour)]
    items.append(line((0.0, -PAST), (0.0, section.height + PAST), dashes=CENTRE_LINE))
    for k, part in enumerate(gauges):
        x0, y0, x1, y1 = part.outline.bounds
        items.append(area(part.outline, fill="jig"))
        at = (x1 - 6, (y0 + y1) / 2 + 3 * k) if where == "outside" else ((x0 + x1) / 2, y1 - 8)
        items.append(labelled("gauge", part.name, at))
    if rail:
        items.append(area(rail.outline, width=0.5))
        items.append(
            labelled("rail", rail.name, (rail.outline.bounds[2] - 3, rail.outline.bounds[3] - 8), "right")
        )
    if where == "outside":
        items += standing(plan, max(part.outline.bounds[2] for part in gauges))
    else:
        items.append(Callout("axis of the lathe", (0.0, -PAST + 2), "left"))
    return Figure(
        id,
        f"The gauge for the {where}, in its place",
        f"The gauge lies in a plane through the axis, its edge on the {where} of the wall. The lathe stands still.",
        tuple(items),
        height=125.0,
    )


def standing(plan: VesselPlan, beside: float = 0.0) -> Iterator[Item]:
    """The waste block and the faceplate, or a board held to the block's back on which a gauge stands `beside` it."""
    side, low, face = plan.stack.waste_across[1] / 2, plan.stack.bottom, plan.gauges.faceplate
    yield box(-side, face, side, low, fill="waste")
    yield box(-side, face - PLATE, max(side, beside), face, fill="metal")
    yield Callout("waste block", (-side * 0.8, (face + low) / 2), "left")
    told = "faceplate or board" if beside else "faceplate"
    yield Callout(told, (-side * 0.8, face - PLATE / 2), "left")


def _rings(plan: VesselPlan) -> Iterator[Callout]:
    """The number of each layer beside it."""
    for layer in plan.stack.layers:
        middle = (layer.ring.bottom + layer.ring.top) / 2
        yield Callout(f"ring {layer.number}", (layer.ring.outer - 2, middle), "right")


def _wood(plan: VesselPlan) -> Iterator[Shape]:
    for layer in plan.stack.layers:
        for side in both(plan.stack.cut_through(layer)):
            yield area(side, fill="turned")


def both(contour: Contour) -> tuple[Contour, ...]:
    """It and its other side of the axis: one piece where it lies along the axis, as a disc and a floor do."""
    on = abs(contour.vertices[:, 0]) < ON_AXIS
    seams = np.flatnonzero(on & np.roll(on, -1) & (contour.vertices[:, 2] == 0.0))
    if len(seams) != 1:
        return contour, contour.mirrored()
    right = np.roll(contour.vertices, -1 - seams[0], axis=0)
    left = Contour(right).mirrored().reversed().vertices
    return (Contour(np.concatenate((right[:-1], left[:-1]))),)
