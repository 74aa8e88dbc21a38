"""A layup at the bench: a segment's pieces in the tray, and a piece in its sanding holder."""

from __future__ import annotations

from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, area, box, disc, line
from jigs.figures.told import Show, by_calliper, labelled
from jigs.parts.part import Part
from jigs.stages.layup.layout.tray import CORNER, FLOOR, LayupTrayLayout, SandingHolder

ABRASIVE, BOARD = 2.5, 9.0  # mm of the abrasive and of its board, as drawn


def tray(own: LayupTrayLayout, base: Part, suffix: str, show: Show) -> Figure:
    """From above, the pieces in it, plies as they run."""
    wide, tall = own.size
    t, (along, up) = own.sheet, own.fences
    pieces = [
        box(i * own.across, j * own.up, (i + 1) * own.across, (j + 1) * own.up,
            fill="other wood" if (i + j) % 2 else "wood")
        for i in range(own.columns) for j in range(own.rows)
    ]  # fmt: skip
    middle = (own.across / 2, own.up / 2)
    turned = (wide - own.across / 2, own.up / 2) if own.columns == 2 else (middle[0], tall - own.up / 2)
    over = [Callout("turned over", turned, "right")] if len(pieces) > 1 else []
    return Figure(
        f"building.layup-tray{suffix}",
        "A segment's pieces in the tray, from above",
        "The pieces lie in the corner of the two fences. Every ply meets its line on the base and its tick on the "
        "fences, and goes on in the piece beside it.",
        (
            area(base.outline, fill="jig"),
            box(CORNER, -t, along, 0.0, fill="pale"),
            box(-t, CORNER, 0.0, up, fill="pale"),
            *pieces,
            *(line(*ends, paint="grey") for ends in own.lines(own.joints())),
            *_ticks(own),
            Dimension((0.0, tall), (wide, tall), by_calliper(show, wide), 6.0, base.outline.bounds[3] - tall),
            Dimension(
                (wide, 0.0), (wide, tall), by_calliper(show, tall), -6.0, wide - base.outline.bounds[2]
            ),
            Callout("piece as cut" if over else "piece", (0.3 * own.across, 0.5 * own.up), "left"),
            *over,
            labelled("fence", f"layup-tray-fence-a{suffix}", (along - 4, -t / 2), "right"),
            labelled("fence", f"layup-tray-fence-b{suffix}", (-t / 2, up - 4), "left"),
            labelled("base", base.name, (base.outline.bounds[0] + 8, base.outline.bounds[1] + 8), "left"),
        ),
        height=115.0,
    )


def _ticks(own: LayupTrayLayout) -> tuple[Item, ...]:
    """Past the work: where plies come to lie at its upper and its right edge."""
    wide, tall = own.size
    _, upper, _, right = own.meetings(own.joints())
    return (
        *(line((x, tall), (x, tall + 8.0)) for x in upper),
        *(line((wide, y), (wide + 8.0, y)) for y in right),
    )


def sanding(own: SandingHolder, pocket: Part, suffix: str, show: Show) -> Figure:
    """From its front: the glue face stands out by what is left to sand off."""
    half, wide = own.across / 2, own.half_width
    side = f"{own.side}{suffix}"
    low, high = own.bar
    face = own.cut + ABRASIVE
    return Figure(
        f"building.sanding-holder-{side}",
        "A piece in its sanding holder",
        f"The piece stands on the pocket's floor, its glue face past the edge of the holder by "
        f"{by_calliper(show, own.left)}. The bar holds it. Rub it on the abrasive until that edge just touches.",
        (
            area(pocket.outline, fill="jig"),
            box(-half, 0.0, half, own.finished, fill="wood"),
            box(-half, own.finished, half, own.cut, fill="waste"),
            box(-wide, low, wide, high, fill="pale"),
            *(disc(bolt, own.bolt_hole / 2, fill="metal") for bolt in own.bolts),
            box(-1.15 * wide, own.cut, 1.15 * wide, face, fill="blade"),
            box(-1.15 * wide, face, 1.15 * wide, face + BOARD, fill="pale"),
            Dimension((wide, 0.0), (wide, own.finished), by_calliper(show, own.finished), -7.0),
            line((half, 0.0), (wide, 0.0), paint="grey"),
            Callout("flat board, abrasive", (-1.1 * wide, face + BOARD / 2), "left"),
            Callout(
                f"sanded off: {by_calliper(show, own.left)}",
                (0.6 * half, (own.finished + own.cut) / 2),
                "right",
            ),
            labelled("bar", f"layup-sanding-bar-{side}", (half + 3, low + 3), "right"),
            Callout("bolt, wing nut", own.bolts[0], "left"),
            labelled("pocket", pocket.name, (-wide + 5, -FLOOR / 2), "left"),
            Callout("piece", (-0.5 * half, low / 2), "left"),
        ),
        height=95.0,
    )
