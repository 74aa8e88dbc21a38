"""The sled for wedge rings from above: bare, and with a ring in either cut. Places are the layout's (s, u)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import tan

from geometry.hardware.draw_rod import BEHIND_FENCE
from geometry.hardware.sled_sizes import GUSSET_DEPTH, HANDLE_LENGTH
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, Point, Shape, area, box, disc, line, polygon
from jigs.figures.saws.common import HIDDEN, blade, blade_line, feed, hidden, outward, runner, wall
from jigs.figures.told import Show, angle, by_calliper, by_rule, labelled
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.layout.sled import SledLayout
from jigs.stages.wedge_rings.sled import end_wedge_thinner

WEDGE_BEFORE = 8.0  # mm of the wedge shown past the ring


def first_cut(plan: TorusPlan, show: Show) -> Figure:
    """Face 1 on the fence."""
    cut = plan.sled.cut
    return Figure(
        "wedge_rings.first",
        "The first cut of a wedge ring, from above",
        f"The ring stands with face 1 against the fence and its outer {outward(plan)} against the stop, "
        f"{by_rule(show, cut.stop)} from where the fence meets the blade. The hatched side is cut off.",
        (
            *_beside_blade(plan),
            *_ring(plan, (0.0, 0.0)),
            *_held(plan),
            _to_blade(plan, show),
            *_named_beside(plan),
            Callout("ring, face 1 on the fence", _at(plan, 0.7, 0.5 * cut.wedge_at_stop), "right"),
            Callout("cut off", _at(plan, 0.5, cut.ring_thickness - 0.4 * cut.wedge_at_stop), "right"),
        ),
        height=130.0,
    )


def second_cut(plan: TorusPlan, show: Show) -> Figure:
    """The cut face on the wedge."""
    title = "The second cut of a wedge ring, from above"
    return _on_wedge(plan, show, plan.sled.cut.wedge_at_stop, ("wedge_rings.second", title, "sled-wedge"))


def end_cut(plan: TorusPlan, show: Show) -> Figure:
    """The cut face on the end wedge, thinner by what is sanded off there more than off a face for the glue."""
    at_stop = plan.sled.cut.wedge_at_stop - end_wedge_thinner(plan.job, plan.sled)
    title = "The second cut of a ring at the end of a half, from above"
    return _on_wedge(plan, show, at_stop, ("wedge_rings.ends", title, "end-wedge"))


def _on_wedge(plan: TorusPlan, show: Show, at_stop: float, of: tuple[str, str, str]) -> Figure:
    """`of` is the figure's id, its title, and the wedge's name."""
    sled, cut = plan.sled, plan.sled.cut
    t = tan(cut.half_wedge)
    start, end = cut.stop - 2 * cut.half_width - WEDGE_BEFORE, cut.stop - sled.arm[0]
    thick = at_stop + (cut.stop - start) * t
    wedge = [(start, 0.0), (end, 0.0), (end, sled.thin_end(at_stop)), (start, thick)]
    id, title, name = of
    return Figure(
        id,
        title,
        "The ring is flipped face for face: its cut face lies on the wedge, whose thick end points to the apex, and "
        f"the same outer {outward(plan)} is against the stop. The hatched side is cut off.",
        (
            *_beside_blade(plan),
            *_ring(plan, (at_stop + 2 * cut.half_width * t, at_stop)),
            polygon([sled.plan(*place) for place in wedge], fill="other wood"),
            *_held(plan),
            _to_blade(plan, show),
            *_named_beside(plan),
            labelled("wedge", name, sled.plan(start + 6, thick / 2), "left"),
            Callout("ring, cut face on the wedge", _at(plan, 0.5, cut.ring_thickness / 2), "right"),
            Callout("cut off", _at(plan, 0.5, cut.ring_thickness - 0.4 * cut.wedge_at_stop), "right"),
        ),
        height=130.0,
    )


def built(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """All its parts, no ring on it."""
    return Figure(
        "building.ring-sled",
        "The sled for wedge rings, from above",
        f"Base, fence at {angle(show, plan.sled.cut.half_wedge)} to the blade, stop, gussets, handle, each with the "
        "code that is engraved on it.",
        (*_bare(plan, parts), *_held(plan), *_measured(plan, show), *_named_beside(plan), *_named(plan)),
        height=130.0,
    )


def _at(plan: TorusPlan, along: float, u: float) -> Point:
    """A share of the ring's width from its inner to its outer flat."""
    cut = plan.sled.cut
    return plan.sled.plan(cut.stop - 2 * cut.half_width * (1 - along), u)


def _ring(plan: TorusPlan, near: tuple[float, float]) -> tuple[Shape, ...]:
    """What is kept, what is cut off, and the core that runs through; `near` is its near face's u at both flats."""
    sled, cut = plan.sled, plan.sled.cut
    s0, s1, far = cut.stop - 2 * cut.half_width, cut.stop, cut.ring_thickness
    kept = [(s0, near[0]), (s1, near[1]), (s1, cut.gap(s1)), (s0, cut.gap(s0))]
    off = [(s0, cut.gap(s0)), (s1, cut.gap(s1)), (s1, far), (s0, far)]
    middle, low = (s0 + s1) / 2, sum(near) / 2
    core = (middle - sled.core_apothem, middle + sled.core_apothem)
    return (
        polygon([sled.plan(*place) for place in kept], fill="wood"),
        polygon([sled.plan(*place) for place in off], fill="waste"),
        *(hidden(sled.plan(s, low), sled.plan(s, far)) for s in core),
    )


def _bare(plan: TorusPlan, parts: Mapping[str, Part]) -> tuple[Item, ...]:
    """Base, fence, gussets, stop cheeks, handle, and what is under them."""
    sled, t = plan.sled, plan.sled.sheet
    x, y = sled.handle, sled.handle_start
    return (
        area(parts["sled-base"].outline, fill="jig"),
        *_under(plan),
        *_braced(plan),
        box(x - t, y, x, y + HANDLE_LENGTH, fill="pale"),
        blade(0.0, sled.kerf, sled.far_edge),
        blade_line(0.0, sled.operator_edge - 4, sled.far_edge),
        feed(sled.left_edge - 14, sled.operator_edge + 40, sled.operator_edge + 120),
    )


def _braced(plan: TorusPlan) -> tuple[Item, ...]:
    """The fence, its gussets, the stop's cheeks."""
    sled, t = plan.sled, plan.sled.sheet
    return (
        wall(plan.sled.plan, (sled.fence_start, sled.fence_end), (-t, 0.0), "pale"),
        *(
            wall(plan.sled.plan, (s - t / 2, s + t / 2), (-t - GUSSET_DEPTH, -t), "pale")
            for s in sled.gussets
        ),
        *(wall(plan.sled.plan, (sled.cut.stop, sled.fence_end), (u, u + t), "pale") for u in sled.cheeks),
    )


def _beside_blade(plan: TorusPlan) -> tuple[Item, ...]:
    """The sled where it is cut: the base's rest is left out."""
    sled, t = plan.sled, plan.sled.sheet
    ends = [sled.plan(s, -t - GUSSET_DEPTH) for s in sled.gussets]
    left, low = (
        min(x for x, _ in ends) - 12,
        min(sled.plan(sled.fence_end, 0.0)[1], min(y for _, y in ends)) - 12,
    )
    far = sled.far_edge
    return (
        box(left, low, 0.0, far, fill="jig"),
        *_braced(plan),
        blade(0.0, sled.kerf, far),
        blade_line(0.0, low - 4, far),
        feed(left - 12, low + 30, low + 75),
    )


def _to_blade(plan: TorusPlan, show: Show) -> Dimension:
    """At the stop, from the fence."""
    sled, stop = plan.sled, plan.sled.cut.stop
    ends = sled.plan(stop, 0.0), sled.plan(stop, sled.stop_check)
    return Dimension(*ends, by_calliper(show, sled.stop_check), -6.0, stop - sled.fence_end)


def _under(plan: TorusPlan) -> tuple[Item, ...]:
    sled = plan.sled
    if isinstance(sled, SledLayout):
        near = -sled.slot_distance
        (left, low), (right, high) = (
            (sled.exit_block_sides[0], sled.exit_block_end),
            (sled.exit_block_sides[1], sled.exit_block_start),
        )
        return (
            *runner((near - sled.slot_width, near), sled.operator_edge, sled.far_edge),
            hidden(*sled.batten),
            box(left, low, right, high, fill="pale"),
        )
    (low, high), (left, right) = sled.bridge, sled.bridge_sides
    edge = sled.guide.strip
    return (
        *runner((edge, sled.guide.base_edge), sled.operator_edge, sled.far_edge),
        hidden(*sled.batten),
        box(left, low, right, high, fill="pale"),
    )


def _held(plan: TorusPlan) -> tuple[Item, ...]:
    """The jaw over the ring, its screw; the draw rod, its plug and knob."""
    sled, rod = plan.sled, plan.sled.rod
    t, half = sled.sheet, rod.diameter / 2
    jaw = [
        (sled.cut.stop - sled.jaw_reach, 0.0),
        (sled.jaw_tail, 0.0),
        (sled.jaw_tail, sled.jaw_layers * t),
        (sled.cut.stop - sled.jaw_reach, sled.jaw_layers * t),
    ]
    corners = [sled.plan(*place) for place in jaw]
    plug = (rod.rubber_end - rod.rubber, rod.rubber_end)
    return (
        wall(plan.sled.plan, (rod.place - rod.core_apothem, rod.place + rod.core_apothem), plug, "grey"),
        wall(plan.sled.plan, (rod.place - half, rod.place + half), (-t - BEHIND_FENCE, rod.tip), "metal"),
        wall(plan.sled.plan, (rod.place - 9, rod.place + 9), (-t - 20, -t - 4), "metal"),
        line(*corners, corners[0], width=0.35, dashes=HIDDEN),
        disc(sled.plan(*sled.jaw_screw), 3.0, fill="metal"),
    )


def _measured(plan: TorusPlan, show: Show) -> tuple[Item, ...]:
    sled, cut = plan.sled, plan.sled.cut
    apex, stop = sled.plan(0.0, 0.0), sled.plan(cut.stop, 0.0)
    return (
        line(sled.plan(sled.fence_start, 0.0), apex, paint="grey", dashes=HIDDEN),
        Dimension(apex, stop, by_rule(show, cut.stop), off=-26.0),
        _to_blade(plan, show),
    )


def _named_beside(plan: TorusPlan) -> Sequence[Item]:
    """What is seen near the blade."""
    sled, t = plan.sled, plan.sled.sheet
    cheek = sled.plan(sled.fence_end - 8, sled.cheeks[-1] + t / 2)
    return (
        labelled("fence", "sled-fence", sled.plan(sled.fence_start + 8, -t / 2), "left"),
        labelled("gusset", "sled-gusset", sled.plan(sled.gussets[-1], -t - 40), "left"),
        labelled("stop", "sled-stop-cheek", cheek, "right"),
        labelled("jaw, its screw", "sled-jaw", sled.plan(*sled.jaw_screw), "right"),
        Callout("draw rod, its knob", sled.plan(sled.rod.place, -t - 12), "left"),
        Callout("blade", (sled.kerf / 2, sled.far_edge + 30), "right"),
    )


def _named(plan: TorusPlan) -> Sequence[Item]:
    """The rest."""
    sled = plan.sled
    (ax, ay), _ = sled.batten
    low = sled.operator_edge
    found = [
        labelled("base", "sled-base", (sled.left_edge + 10, sled.far_edge - 10), "left"),
        labelled("handle", "sled-handle", (sled.handle - sled.sheet / 2, sled.handle_start + 100), "left"),
        labelled("batten, ends the feed", "sled-batten", (ax + 14, ay), "left"),
    ]
    if isinstance(sled, SledLayout):
        block = (sled.exit_block_sides[1] - 8, (sled.exit_block_start + sled.exit_block_end) / 2)
        slot = (-sled.slot_distance - sled.slot_width / 2, low + 12)
        return (
            *found,
            labelled("exit block", "sled-exit-block", block, "right"),
            labelled("runner", "sled-runner", slot, "left"),
        )
    bridge = (sled.bridge_sides[1] - 8, sum(sled.bridge) / 2)
    return (
        *found,
        labelled("bridge", "sled-bridge", bridge, "right"),
        labelled("strip, on the rail", "sled-strip", (sled.guide.strip - 6, low + 30), "left"),
    )
