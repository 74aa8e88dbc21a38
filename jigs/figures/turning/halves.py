"""The parts of a vessel: each with its inside gauges, and how the ring between two centres one on the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from geometry.bodies.floor import rebated
from geometry.bodies.section import Section
from geometry.plane.contour import Contour, rectangle
from geometry.records import replace
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, area, line, turned_over
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper
from jigs.figures.turning.vessel import both, gauged
from jigs.parts.part import Part
from jigs.plans.vessel import VesselPlan
from jigs.stages.halves.plan import HalvesPlan, JointRing, Tier

APART = 12.0  # mm between the parts as drawn
PAST = 6.0  # mm of the axis past them


def figures(plan: VesselPlan, halves: HalvesPlan, parts: Mapping[str, Part], show: Show) -> Iterator[Figure]:
    """The gauges of all, then the joints."""
    for tier in halves.tiers:
        own = {
            name.replace(tier.gauge, "inside-gauge"): part
            for name, part in parts.items()
            if name.startswith(f"{tier.gauge}-")
        }
        for figure in gauged(replace(plan, section=tier.section, gauges=tier.gauges), own):
            alt = f"The {tier.name} part on its waste block, its joint up. {figure.alt}"
            yield replace(figure, id=f"{tier.name}_{figure.id}", alt=alt)
    for tier in halves.tiers[1:]:
        yield _joint(tier, show)


def _joint(tier: Tier, show: Show) -> Figure:
    """A part a little over what it is glued on, the ring between; it is still closed by the waste over its top."""
    ring, joint, below, upper = tier.joint.centring, tier.joint.height, tier.joint.below, tier.section
    middle, half, top = joint + APART / 2, ring.thickness / 2, joint + APART + upper.height
    cut = rectangle(ring.inner, middle - half, ring.outer, middle + half)
    turned = turned_over(_rebated(upper, ring), top)
    return Figure(
        f"{tier.joint.of}.glue",
        f"The {tier.name} part over what it is glued on, and the ring that centres it, cut through the axis",
        "Both have a rebate in the inner edge of the joint. The loose ring lies in both; glue goes outside it.",
        (
            *(area(one, fill="wood") for one in both(_rebated(below, ring))),
            *(area(one, fill="other wood") for one in both(turned)),
            *(area(one, fill="jig") for one in both(cut)),
            line((0.0, -PAST), (0.0, top + PAST), dashes=CENTRE_LINE),
            Dimension((-ring.outer, middle), (ring.outer, middle), by_calliper(show, 2 * ring.outer), 0.0),
            Callout("on the lathe", (below.outer.radius_at(joint / 2) - 2, joint / 2), "right"),
            Callout("ring", (ring.outer - 1, middle), "right"),
            Callout(
                f"{tier.name} part",
                (upper.outer.radius_at(upper.height / 2) - 2, top - upper.height / 2),
                "right",
            ),
        ),
        height=150.0,
    )


def _rebated(tier: Section, ring: JointRing) -> Contour:
    """A part's section with its rebate."""
    width = ring.rebate - tier.inner.radius_at(tier.height - ring.depth)
    return replace(tier, inner=rebated(tier.inner, width, ring.depth)).contour
