"""A hold-down from the front of its fence: slide, cam, lever, fingers, with the lever level."""

from __future__ import annotations

from geometry.hardware.hold_down import DISC, LEVER, LEVER_WIDTH, OFF, HoldDown
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Item, box, disc, line
from jigs.figures.saws.common import HIDDEN
from jigs.figures.told import Show, by_calliper, labelled

BOARD = 18.0  # mm of the base shown under the wood
BESIDE = 40.0  # mm of the fence shown beside the slide


def hold_down(
    id: str, family: str, suffix: str, slide: str, own: HoldDown, height: float, show: Show
) -> Figure:
    """`family` begins the parts' names and `suffix` ends them; `height` is the fence's above the base."""
    wood, middle = own.wood, own.middle
    bottom = wood + own.gap
    pivot = (middle, bottom + own.pivot)
    x0, z0, x1, z1 = own.window
    left, right = -BESIDE, own.width + BESIDE + LEVER / 2
    half = LEVER_WIDTH / 2
    items: tuple[Item, ...] = (
        box(left, -BOARD, right, 0.0, fill="jig"),
        box(left, 0.0, right, height, fill="pale"),
        box(left, 0.0, right - 10, wood, fill="wood"),
        *(box(a, wood, b, wood + own.finger_height, fill="grey") for a, b in own.bearing),
        box(0.0, bottom, own.width, bottom + own.height, fill="jig"),
        line(
            *((x, wood + z) for x, z in ((x0, z0), (x1, z0), (x1, z1), (x0, z1), (x0, z0))),
            paint="grey",
            dashes=HIDDEN,
        ),
        *(_slot(x, wood + low, wood + high) for x, low, high in own.slots),
        disc((pivot[0] + OFF, pivot[1]), DISC),
        line(
            *(
                (pivot[0] + x, pivot[1] + z)
                for x, z in ((-half, -half), (LEVER, -half), (LEVER, half), (-half, half), (-half, -half))
            ),
            width=0.35,
            dashes=HIDDEN,
        ),
        *(disc((x, bottom + z), 3.0, fill="metal") for x, z in own.bolts),
        disc(pivot, 3.0, fill="ink"),
        Callout(f"gap: {by_calliper(show, own.gap)}", (own.width - 2, (wood + bottom) / 2), "right"),
        labelled("slide", slide, (own.width - 4, bottom + own.height - 5), "right"),
        labelled("cam", f"{family}-cam{suffix}", (pivot[0] + OFF, pivot[1] + DISC - 3), "left"),
        labelled("lever, behind", f"{family}-lever{suffix}", (pivot[0] + LEVER - 6, pivot[1]), "right"),
        Callout("guide bolt in its slot", (own.bolts[0][0], bottom + own.bolts[0][1]), "left"),
        Callout("bolt of the cam", pivot, "left"),
        labelled("finger", f"{family}-finger{suffix}", (own.bearing[-1][1] - 2, wood + 4), "right"),
        labelled("fence", f"{family}-fence{suffix}", (left + 10, height - 6), "left"),
        Callout("wood", (left + 10, wood / 2), "left"),
    )
    return Figure(
        id,
        "A hold-down from the front of its fence",
        "The slide hangs on two bolts in upright slots. The lever behind the fence turns the cam in its window: level, "
        "it presses the slide and its fingers down on the wood.",
        items,
        height=105.0,
    )


def _slot(x: float, low: float, high: float) -> Item:
    r = 3.2
    return line(
        (x - r, low), (x + r, low), (x + r, high), (x - r, high), (x - r, low), paint="grey", dashes=HIDDEN
    )
