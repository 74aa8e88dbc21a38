"""The sled for staves from above: a piece in its stop, for either edge."""

from __future__ import annotations

from geometry.hardware.sled_sizes import HANDLE_LENGTH
from geometry.hardware.stop_sled import STOP_GAP
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, box, disc, mirrored, polygon
from jigs.figures.saws.common import bare, held
from jigs.figures.told import Show, angle, by_calliper, labelled
from jigs.stages.staves.layout import StaveSledLayout

WHICH = {1: "first", 2: "second"}


def edge(own: StaveSledLayout, cut: int, turned: bool, show: Show) -> Figure:
    """The piece in its first or second stop. `turned`: drawn the other way round."""
    wide = own.wide if cut == 1 else own.narrow
    a, b, c, d = own.piece(cut)
    toe, corner, end = own.stop_corner(cut)
    left = own.stop_left
    stop = [(left, STOP_GAP), (toe[0], STOP_GAP), toe, corner, end, (left, end[1])]
    low = own.exit_block[1] - 15
    items: tuple[Item, ...] = (
        *_bare(own, min(left, own.fence_ends[0]) - 15, low),
        polygon(stop, fill="metal"),
        polygon([a, b, c, d], fill="wood"),
        held(own),
        Dimension(a, b, by_calliper(show, wide), -18.0) if cut == 2 else _width(own, show),
        labelled("stop", f"stave-stop-{cut}", (left + 40, end[1] - 6), "left"),
        Callout("stave", ((a[0] + c[0]) / 2, (a[1] + c[1]) / 2 + 6), "left"),
        *_named(own, low),
    )
    which = "its wide end" if cut == 1 else "turned end for end, its narrow end"
    return Figure(
        f"staves.edge-{cut}",
        f"The {WHICH[cut]} edge of a stave, from above",
        f"The stave lies in the stop, {which} on the toe, its outer face up. The blade leans "
        f"{angle(show, own.tilt)} from upright, away from it.",
        mirrored(items) if turned else items,
        height=120.0,
    )


def built(own: StaveSledLayout, turned: bool, show: Show) -> Figure:
    """All of it, no stave on it."""
    x, y = own.handle
    items: tuple[Item, ...] = (
        *_bare(own, own.left_edge, own.operator_edge),
        box(x, y - own.sheet, x + HANDLE_LENGTH, y, fill="pale"),
        held(own),
        *(disc(pin, 3.0, fill="ink") for pin in own.pins),
        Callout("pins of either stop", own.pins[1], "left"),
        labelled("handle", "stave-handle", (x + 20, y - own.sheet / 2), "left"),
        labelled("base", "stave-base", (own.left_edge + 10, own.far_edge - 8), "left"),
        *_named(own, own.operator_edge),
    )
    return Figure(
        "building.stave-sled",
        "The sled for staves from above",
        f"Base, fence, hold-down, handle; the blade leans {angle(show, own.tilt)} from upright.",
        mirrored(items) if turned else items,
        height=120.0,
    )


def _width(own: StaveSledLayout, show: Show) -> Dimension:
    """Of the piece as it was ripped."""
    a, _, _, d = own.piece(1)
    long = own.board[1]
    across = ((d[1] - a[1]) / long * own.board[0], -(d[0] - a[0]) / long * own.board[0])
    return Dimension(d, (d[0] + across[0], d[1] + across[1]), by_calliper(show, own.board[0]), 7.0)


def _bare(own: StaveSledLayout, left: float, low: float) -> tuple[Item, ...]:
    start, end = own.fence_ends
    fence = box(start, -own.sheet, end, 0.0, fill="pale")
    return bare(own, left, low, fence, (own.lean, own.lean + own.slant))


def _named(own: StaveSledLayout, low: float) -> tuple[Callout, ...]:
    _, foot, right, _ = own.exit_block
    return (
        labelled("fence", "stave-fence", (own.fence_ends[1] - 8, -own.sheet / 2), "right"),
        labelled("hold-down", "stave-hold", (sum(own.foot) / 2, own.hold.finger_end * 0.6), "right"),
        labelled("exit block", "stave-exit-block", (right - 8, foot + 15), "right"),
        Callout("blade, leans away", (own.lean + own.slant / 2, own.far_edge + 30), "right"),
        labelled("runner", "stave-runner", (sum(own.runner) / 2, low + 12)),
    )
