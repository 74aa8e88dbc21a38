"""A vessel upright on its waste block, cut through the axis: its stations, and how it is parted off. x is the radius,
y the height over the foot."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.figures.figure import Figure
from jigs.figures.items import Arrow, Callout, Dimension, Item, area, box, line
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_rule
from jigs.figures.turning.vessel import CENTRE, PAST, PLATE, both, standing
from jigs.plans.vessel import VesselPlan
from jigs.stages.halves.plan import Tier

TOOL = 3.0  # mm of a parting tool's cut
QUILL, PAD = 7.0, 14.0  # mm: half of the tailstock's width, and the block or board that it presses


def figures(plan: VesselPlan, show: Show) -> Iterator[Figure]:
    """In the order of the work."""
    if plan.sizes.gaps or plan.sizes.sticks:
        yield _stations(plan, show)
    if plan.halves:
        yield _over_rim(plan, plan.halves.tiers[-1], show)
    yield _parting(plan, show)


def _stations(plan: VesselPlan, show: Show) -> Figure:
    outer = plan.section.outer
    items: list[Item] = []
    gauged = [(one.station, one.over_faceplate) for one in plan.sizes.gaps]
    gauged += [(one.station, one.over_faceplate) for one in plan.sizes.sticks]
    for station, over in gauged:
        name, z = station.name, station.height
        x = outer.radius_at(z) + plan.stack.allowance
        items.append(line((-x, z), (x, z), paint="blade", dashes=CENTRE_LINE))
        items.append(Callout(f"{name[0].upper()}{name[1:]}: {by_rule(show, over)}", (x, z), "right"))
    return Figure(
        "outside.mark",
        "The stations, and how high each is over the faceplate",
        "A line is pencilled round the work at each station, at its height over the faceplate's face.",
        (
            *(area(half, fill="wood") for layer in plan.stack.layers for half in both(plan.stack.cut_through(layer))),
            *standing(plan),
            _axis(plan),
            *items,
        ),
        height=125.0,
    )  # fmt: skip


def _parting(plan: VesselPlan, show: Show) -> Figure:
    section, word, (hollow, neck) = plan.section, plan.job.called, plan.parting_neck
    foot, low, side = section.foot_radius, plan.stack.bottom, plan.stack.waste_across[1] / 2
    out, cut = max(foot, side) + 1.0, -0.5 - TOOL / 2
    face, left = plan.gauges.faceplate, by_rule(show, 2 * neck, "least")
    slots = (box(k * neck, cut - TOOL / 2, k * out, cut + TOOL / 2, fill="paper") for k in (-1, 1))
    return Figure(
        "reversing.off",
        f"Parting in below the {word.foot}, cut through the axis",
        f"The tool parts in beside the {word.foot}'s plane, in the waste, down to a neck that is sawn by hand. The "
        "tailstock keeps the work from falling.",
        (
            box(-foot, low, foot, 0.0, fill="waste"),
            *(area(half, fill="wood") for half in both(section.contour)),
            *standing(plan),
            _axis(plan),
            *((box(-hollow, low, hollow, 0.0, fill="paper"),) if hollow else ()),
            *slots,
            *_tailstock(plan),
            Arrow((out + 30.0, cut), (neck + 1.0, cut), "parting tool", paint="blade"),
            Dimension((-out, face), (-out, 0.0), by_rule(show, -face), 7.0),
            Callout(f"neck, sawn by hand: {left} across", (neck * 0.9, cut), "left"),
        ),
        height=125.0,
    )


def _over_rim(plan: VesselPlan, upper: Tier, show: Show) -> Figure:
    """The upper part's waste block, upside down on the finished outside; no faceplate on it."""
    section, neck = plan.section, plan.section.mouth_radius + 3.0
    rim, top = section.height, section.height - upper.stack.bottom
    side = upper.stack.waste_across[1] / 2
    cut, out = rim + 0.5 + TOOL / 2, max(section.rim_radius, side) + 1.0
    slots = (box(k * neck, cut - TOOL / 2, k * out, cut + TOOL / 2, fill="paper") for k in (-1, 1))
    end, wide, face = top + upper.waste.thickness, plan.across / 2, plan.gauges.faceplate
    left = by_rule(show, 2 * neck, "least")
    return Figure(
        "outside.part",
        "Parting in over the rim, cut through the axis",
        "The tool parts in over the rim's plane, in the waste, down to a neck that is sawn by hand.",
        (
            *(area(half, fill="wood") for half in both(section.contour)),
            box(-section.foot_radius, plan.stack.bottom, section.foot_radius, 0.0, fill="waste"),
            box(-section.rim_radius, rim, section.rim_radius, top, fill="waste"),
            box(-side, top, side, end, fill="waste"),
            *standing(plan),
            *slots,
            box(-QUILL, end, QUILL, end + CENTRE, fill="metal"),
            Callout("tailstock", (QUILL * 0.6, end + CENTRE - 5.0), "right"),
            Callout("upper waste block", (side * 0.8, (top + end) / 2), "right"),
            Arrow((out + 30.0, cut), (neck + 1.0, cut), "parting tool", paint="blade"),
            Callout(f"neck, sawn by hand: {left} across", (neck * 0.9, cut), "left"),
            Dimension((-wide, face), (-wide, rim), by_rule(show, rim - face), 7.0),
            _axis(plan),
        ),
        height=150.0,
    )  # fmt: skip


def _axis(plan: VesselPlan) -> Item:
    low = plan.gauges.faceplate - PLATE - PAST
    return line((0.0, low), (0.0, plan.section.height + CENTRE + PAST), dashes=CENTRE_LINE)


def _tailstock(plan: VesselPlan) -> Iterator[Item]:
    """Its padded block on the floor; a padded board across the rim where the floor is open or loose."""
    section, top = plan.section, plan.section.height + CENTRE
    if plan.parting_neck[0]:
        low, half = section.height, section.rim_radius + 6.0
        told = "padded board"
    else:
        low, half = section.inner.bottom, min(20.0, 0.6 * section.mouth_radius)
        told = "padded block"
    yield box(-half, low, half, low + PAD, fill="jig")
    yield box(-QUILL, low + PAD, QUILL, top, fill="metal")
    yield Callout("tailstock", (QUILL * 0.6, top - 5.0), "right")
    yield Callout(told, (half * 0.8, low + PAD / 2), "right")
