"""What stands on the bench for truing and for the second cut: the sanding board from its end, a sled wedge with its
peg."""

from __future__ import annotations

from collections.abc import Mapping

from geometry.hardware.sled_sizes import GUSSET_TAB, TAB
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, area, box, disc, line, mirrored, moved
from jigs.figures.saws.common import hidden
from jigs.figures.told import Show, by_calliper, by_rule, labelled
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan

ROOM = 30.0  # mm between a wedge from its side and from above


def sanding_board(plan: TorusPlan, parts: Mapping[str, Part]) -> Figure:
    """Cut through: x from the abrasive's face towards the carrier, y the height over the base."""
    own = plan.truing
    t, high, face = own.sheet, plan.sled.fence_height, -own.abrasive
    foot = plan.sled.gusset_mortise
    base = parts["truing-base"].outline.bounds
    gusset = moved(mirrored([area(parts["truing-gusset"].outline, fill="pale")]), face - t, 0.0)
    ring = plan.blank.apothem
    items: tuple[Item, ...] = (
        *gusset,
        box(base[1], -t, base[3], 0.0, fill="jig"),
        box(face - t, -t, face, high, fill="other wood"),
        box(face, foot, 0.0, high - 4, fill="blade"),
        box(0.0, 0.0, own.depth, t, fill="jig"),
        box(2.0, t, 2.0 + 0.5 * own.depth, t + 2 * ring, fill="wood"),
        hidden((face - t - GUSSET_TAB - TAB, -t), (face - t - GUSSET_TAB - TAB, 0.0)),
        labelled("board", "truing-board", (face - t / 2, 0.7 * high), "left"),
        labelled("gusset", "truing-gusset", (face - t - 20, 0.25 * high), "left"),
        labelled("base", "truing-base", (base[1] + 10, -t / 2), "left"),
        Callout("abrasive", (face / 2, 0.5 * high), "right"),
        Callout("half", (2 + 0.3 * own.depth, t + 1.2 * ring), "right"),
        labelled("carrier, slides on the base", "truing-carrier", (0.85 * own.depth, t / 2), "right"),
    )
    return Figure(
        "building.truing-board",
        "The sanding board from its end",
        "The board stands upright in the base, its gussets behind it, the abrasive on its front. The carrier slides on "
        "the base with the half on it.",
        items,
        height=85.0,
    )


def wedge(plan: TorusPlan, part: Part, show: Show) -> Figure:
    """From the fence's side, its layers as they stand, and over that from above: x from its thin end."""
    own, peg, bore = plan.sled, plan.sled.peg, part.bore
    x0, _, x1, thick = part.outline.bounds
    long, high = x1 - x0, part.stack * part.thickness
    above = high + ROOM
    items: list[Item] = [
        *(
            box(0.0, k * part.thickness, long, (k + 1) * part.thickness, fill="other wood")
            for k in range(part.stack)
        ),
        *moved([area(part.outline, fill="other wood")], -x0, above),
        Callout("thin end, at the stop", (2.0, above + 2.0), "left"),
        labelled("layers", part.name, (3.0, high - 3.0), "left"),
        Callout("thick end", (long - 2.0, above + 0.6 * thick), "right"),
    ]
    if bore:
        items += [
            disc((bore.along, bore.up), bore.across / 2, fill="paper"),
            Dimension((0.0, bore.up), (bore.along, bore.up), by_rule(show, bore.along), -7.0, -bore.up),
            Dimension((0.0, 0.0), (0.0, bore.up), by_rule(show, bore.up), 7.0),
            Callout(f"rod's hole, {by_calliper(show, bore.across)} across", (bore.along, bore.up), "left"),
        ]
    if peg:
        along, deep = peg.to_stop - own.arm[0], own.sheet
        items += [
            disc((along, peg.height), plan.job.fittings.peg / 2, fill="wood"),
            box(
                along - plan.job.fittings.peg / 2,
                above - deep,
                along + plan.job.fittings.peg / 2,
                above,
                fill="wood",
            ),
            Dimension((0.0, peg.height), (along, peg.height), by_rule(show, along), -14.0, -peg.height),
            Dimension((long, 0.0), (long, peg.height), by_rule(show, peg.height), -7.0),
            line((along, peg.height), (long, peg.height), paint="grey"),
            Callout("peg, into the fence", (along + plan.job.fittings.peg / 2, above - deep / 2), "right"),
        ]
    return Figure(
        f"building.{part.name}",
        "The wedge of the second cut, from the fence's side and from above",
        "The layers stand on each other, the hole of the draw rod goes through them, the peg stands out towards the "
        "fence. All lengths are from the thin end and from the base.",
        tuple(items),
        height=105.0,
    )
