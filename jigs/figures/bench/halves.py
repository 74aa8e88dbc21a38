"""A torus glued of wedge rings, from above: in its band, at its clamp blocks, a half under its check, and rings dry
in the check corner. The torus axis is the origin."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import cos, sin

from geometry.plane.edges import on_circle
from jigs.figures.figure import Figure
from jigs.figures.items import Arrow, Callout, Dimension, Item, area, line, polygon
from jigs.figures.told import Show, angle, by_calliper, labelled, pieces_of
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan
from jigs.stages.slips.layout import PROUD

BAND = 4.0  # mm from the wood to the band, as drawn
PAST = 10.0  # mm that waxed paper stands past the wood
PULL = 0.14  # of the swing radius, a clamp's arrow


def in_band(plan: TorusPlan, what: str = "") -> Figure:
    """The whole torus, waxed paper between its halves or quarters, whichever are glued first unless `what` says;
    none where the whole `blank` is glued."""
    blank, what = plan.blank, what or ("quarters" if quartered(plan) else "halves")
    n, w = blank.wedge_rings, blank.half_wedge
    around = [on_circle((blank.outer_radius + BAND) / cos(w), 2 * k * w) for k in range(n)]
    reach, inner = blank.swing_radius + BAND + PAST, blank.inner_radius - PAST
    each = plan.truing.quarter if what == "quarters" else n // 2
    opened = [] if what == "blank" else [2 * k * w for k in range(0, n, each)]
    piece = "quarter" if what == "quarters" else "half"
    paper = f"Waxed paper keeps the joints between the {what} open." if opened else "Every joint is closed."
    return Figure(
        f"glue_up.{what}",
        "The wedge rings in their band, from above",
        f"All wedge rings lie in one band in their order. {paper}",
        (
            *_rings(plan, range(n)),
            *_strips(plan),
            line(*around, around[0], paint="metal", width=0.8),
            *(
                line(on_circle(inner, turn), on_circle(reach, turn), paint="blade", width=0.6)
                for turn in opened
            ),
            *(Callout("waxed paper", (reach - 2, 0.0), "right") for _ in opened[:1]),
            *(Callout("waxed paper", (2 - reach, 0.0), "left") for _ in opened[:1]),
            Callout(f"one {piece}", on_circle(blank.centre, w), "right"),
            Callout("the next", on_circle(blank.centre, -w), "right"),
            Callout("band", around[3 * n // 8], "left"),
        ),
        height=110.0,
    )


def _strips(plan: TorusPlan) -> Iterator[Item]:
    """Between all rings, level with the rim, standing out in the hole; none where they are 0 thick."""
    blank = plan.blank
    c, half = cos(blank.half_wedge), blank.ring_spacer / 2
    ends = blank.inner_radius / c - PROUD, blank.swing_radius
    for k in range(blank.wedge_rings if half else 0):
        turn = (2 * k + 1) * blank.half_wedge + blank.half_wedge
        along, across = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
        places = ((ends[0], -half), (ends[1], -half), (ends[1], half), (ends[0], half))
        yield polygon(
            [(r * along[0] + s * across[0], r * along[1] + s * across[1]) for r, s in places],
            fill="other wood",
        )


def quartered(plan: TorusPlan) -> bool:
    """Whether quarters are glued before halves."""
    return any(stage.assembly == "torus" and stage.what == "quarters" for stage in plan.wood.glue.stages)


def blank_at_blocks(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """Two halves with the clamp blocks at both joints."""
    title = "The two halves and their clamp blocks, from above"
    return _at_blocks(
        plan, parts, show, ("glue_up.blank", title, "half"), range(plan.blank.wedge_rings), (1, -1)
    )


def half_at_blocks(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """Two quarters with the clamp blocks at the joint between them."""
    q, title = plan.truing.quarter, "Two quarters and their clamp blocks, from above"
    return _at_blocks(plan, parts, show, ("glue_up.halves", title, "quarter"), range(-q, q), (1,))


def _at_blocks(
    plan: TorusPlan, parts: Mapping[str, Part], show: Show, of: tuple[str, str, str], rings: range,
    sides: tuple[int, ...],
) -> Figure:  # fmt: skip
    """`of` is the figure's id, its title and what is joined; the joint lies along x, on these sides of the axis."""
    blank, blocks = plan.blank, plan.clamping
    near, pull, corner, rim = blocks.flat_far, blocks.pull_radius, blocks.flat_corners, blocks.rim_corners
    far = near + PULL * blank.swing_radius
    shapes = [
        *([corner] if "clamp-block-flat" in parts else []),
        *([rim] if "clamp-block-rim" in parts else []),
    ]
    drawn = [
        polygon([(side * x, way * y) for x, y in shape], fill="pale")
        for shape in shapes for side in sides for way in (1, -1)
    ]  # fmt: skip
    arrows = [
        Arrow((side * pull, way * far), (side * pull, way * (near + 2)), paint="blade")
        for side in sides for way in (1, -1)
    ]  # fmt: skip
    out = blank.swing_radius + PAST
    rims = [labelled("block", "clamp-block-rim", rim[-1], "right")] if len(shapes) > 1 else []
    low = -out if len(sides) > 1 else -blank.swing_radius * sin(2 * plan.truing.quarter * blank.half_wedge)
    id, title, what = of
    return Figure(
        id,
        title,
        f"A block on either side of each joint of {what}s, its JOINT edge along the joint; on the flats, one above and "
        f"one below. Those clamps pull {by_calliper(show, pull)} from the axis of the torus, the joint's middle.",
        (
            *_rings(plan, rings),
            *drawn,
            *arrows,
            *(line((0.0 if len(sides) == 1 else -out, 0.0), (out, 0.0), paint="blade", width=0.5),),
            Dimension((0.0, 0.0), (pull, 0.0), by_calliper(show, pull), -7.0, low),
            Callout("joint", (out - 5, 0.0), "right"),
            labelled("block", "clamp-block-flat", corner[2], "right"),
            labelled("block, mirror image", "clamp-block-flat", (corner[2][0], -corner[2][1]), "right"),
            Callout("clamp", (pull, (near + far) / 2), "right"),
            *rims,
            Callout(what, on_circle(blank.centre, blank.half_wedge * (rings.stop / len(sides) + 1)), "left"),
        ),
        height=115.0,
    )


def checked(plan: TorusPlan, show: Show) -> Figure:
    """A half with the plate across its ends."""
    blank = plan.blank
    wide, t = blank.swing_radius + 8, plan.job.workshop.boards.sheet
    gap = blank.inner_radius / cos(blank.half_wedge)
    ends = (gap + blank.swing_radius) / 2
    return Figure(
        "glue_up.check-halves",
        "The half check on both ends of a half, from above",
        "The plate's straight edge lies across both ends of a half, its middle at the axis of the torus. Light at the "
        "rim: the half spans too little. Light at the hole: too much.",
        (
            *_rings(plan, range(blank.wedge_rings // 2)),
            polygon([(-wide, -t), (wide, -t), (wide, 0.0), (-wide, 0.0)], fill="jig"),
            line((0.0, -t - 4), (0.0, 12.0), paint="grey"),
            Dimension((-wide, -t), (wide, -t), by_calliper(show, 2 * wide), -7.0),
            labelled("half check", "half-check", (wide - 6, -t / 2), "right"),
            Callout("no light here", (ends, 0.0), "right"),
            Callout("nor here", (-ends, 0.0), "left"),
            Callout("its middle, at the axis", (0.0, 4.0), "left"),
        ),
        height=85.0,
    )


def _rings(plan: TorusPlan, which: range) -> Iterator[Item]:
    blank = plan.blank
    w = blank.half_wedge
    inner, outer = blank.inner_radius / cos(w), blank.swing_radius
    for k in which:
        ends = ((inner, k), (outer, k), (outer, k + 1), (inner, k + 1))
        yield polygon([on_circle(radius, 2 * j * w) for radius, j in ends], fill="wood")


def check_corner(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """As many as must fill it."""
    blank, check = plan.blank, plan.check
    middle = (blank.inner_radius / cos(blank.half_wedge) + blank.swing_radius) / 2
    low, joint, high = (on_circle(middle, 2 * k * blank.half_wedge) for k in (0, 1, check.rings))
    items = (
        *(area(part.outline, fill="jig") for part in pieces_of(parts, "check-corner")),
        *_rings(plan, range(check.rings)),
        labelled("check corner", "check-corner", (check.leg * 0.7, -15.0), "right"),
        Callout(f"corner of {angle(show, check.angle)}", (2.0, 2.0), "left"),
        Callout("no light here", high, "left"),
        Callout("nor here", low, "right"),
        Callout("nor at the joints", joint, "right"),
    )
    return Figure(
        "wedge_rings.trial",
        "Wedge rings in the check corner",
        f"{check.rings} wedge rings lie dry in the corner and fill it: no light along either arm or at the joints.",
        items,
        height=105.0,
    )
