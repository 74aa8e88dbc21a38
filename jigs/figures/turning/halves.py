"""Two halves: each with its inside gauges, and how the ring between them centres one on the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from geometry.bodies.rebate import rebated
from geometry.bodies.section import Section
from geometry.plane.contour import Contour, rectangle
from jigs.figures.figure import Callout, Dimension, Figure
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.shapes import area, line
from jigs.figures.told import Show, by_calliper
from jigs.figures.turning.vessel import both, gauged
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.halves.plan import HalvesPlan, JointRing

APART = 12.0  # mm between the halves as drawn
PAST = 6.0  # mm of the axis past them


def figures(plan: VesselPlan, halves: HalvesPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """The gauges of both, then the joint."""
    for lot in halves.lots:
        head = f"{lot.name}-"
        own = {
            name.removeprefix(head): part for name, part in parts.items() if name.startswith(f"{head}inside")
        }
        for figure in gauged(replace(plan, section=lot.section, gauges=lot.gauges), own, show):
            alt = f"The {lot.name} half on its waste block, its joint up. {figure.alt}"
            yield replace(figure, id=f"{lot.name}_{figure.id}", alt=alt)
    yield _joint(plan, halves, show)


def _joint(plan: VesselPlan, halves: HalvesPlan, show: Show) -> Figure:
    """The halves a little apart, the ring between; the upper one is still closed by the waste over its rim."""
    ring, joint, upper = halves.centring, halves.joint, halves.upper.section
    middle, half, top = joint + APART / 2, ring.thickness / 2, joint + APART + upper.height
    cut = rectangle(ring.inner, middle - half, ring.outer, middle + half)
    turned = _turned_over(_rebated(upper, ring), top)
    side, high = plan.section.outer, (joint + plan.section.height) / 2
    return Figure(
        "halves.glue",
        "The halves and the ring that centres them, cut through the axis",
        "Either half has a rebate in the inner edge of its joint. The loose ring lies in both; glue goes outside it.",
        (
            *(area(one, fill="wood") for one in both(_rebated(halves.lower.section, ring))),
            *(area(one, fill="other wood") for one in both(turned)),
            *(area(one, fill="jig") for one in both(cut)),
            line((0.0, -PAST), (0.0, top + PAST), dashes=CENTRE_LINE),
            Dimension((-ring.outer, middle), (ring.outer, middle), by_calliper(show, 2 * ring.outer), 0.0),
            Callout("lower half", (side.radius_at(joint / 2) - 2, joint / 2), "right"),
            Callout("ring", (ring.outer - 1, middle), "right"),
            Callout("upper half", (side.radius_at(high) - 2, high + APART), "right"),
        ),
        height=150.0,
    )


def _rebated(lot: Section, ring: JointRing) -> Contour:
    """A half's section with its rebate."""
    width = ring.rebate - lot.inner.radius_at(lot.height - ring.depth)
    return replace(lot, inner=rebated(lot.inner, width, ring.depth)).contour


def _turned_over(contour: Contour, top: float) -> Contour:
    rows = contour.vertices.copy()
    rows[:, 1] = top - rows[:, 1]
    rows[:, 2] *= -1
    return Contour(rows)
