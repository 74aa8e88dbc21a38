"""The trim sled of a layup from above: with its stop alone, and with a slab. Places are the layout's."""

from __future__ import annotations

from geometry.hardware.sled_sizes import HANDLE_LENGTH
from jigs.figures.figure import Figure
from jigs.figures.items import Callout, Dimension, Item, box, disc, polygon
from jigs.figures.saws.common import bare, held
from jigs.figures.told import Show, by_calliper, labelled
from jigs.stages.layup.layout.trim import TrimSledLayout


def built(own: TrimSledLayout, suffix: str, cut: str, show: Show) -> Figure:
    """`cut` names the side that is trimmed: "a" or "b"."""
    x, y = own.handle
    low = own.operator_edge
    return Figure(
        f"building.trim-sled{suffix}",
        "The trim sled from above",
        f"Base, fence, hold-down, handle, and a stop on its two pins, {by_calliper(show, own.length)} from the blade.",
        (
            *_bare(own, own.left_edge, low),
            box(x, y - own.sheet, x + HANDLE_LENGTH, y, fill="pale"),
            *_stop(own),
            held(own),
            *_named(own, suffix, cut),
            labelled("base", f"layup-trim-base{suffix}", (own.left_edge + 10, own.far_edge - 8), "left"),
            labelled("handle", f"layup-trim-handle{suffix}", (x + 20, y - own.sheet / 2), "left"),
            labelled("runner", f"layup-trim-runner{suffix}", (sum(own.runner) / 2, low + 10), "left"),
        ),
        height=115.0,
    )


def trimmed(own: TrimSledLayout, suffix: str, cut: str, number: str, show: Show) -> Figure:
    """The first end of a slab. `number` ends the picture's id."""
    top, wide = own.slanted_at(own.width), own.slab_length
    slab = [(-own.length, 0.0), (0.0, 0.0), (0.0, own.width), (top, own.width)]
    off = [(own.kerf, 0.0), (wide - own.length, 0.0), (top + wide, own.width), (own.kerf, own.width)]
    left, low = own.stop_left - 15, own.exit_block[1] - 15
    over = own.stop_depth[1]
    return Figure(
        f"layup.trim{number}",
        "A slab is trimmed, from above",
        "A sawn side of the slab lies on the fence, its end against the stop. The hold-down is tight on the piece; "
        "nothing stands on the side that is cut off.",
        (
            *_bare(own, left, low),
            polygon(slab, fill="wood"),
            polygon(off, fill="waste"),
            *_stop(own),
            held(own),
            Dimension((-own.length, 0.0), (0.0, 0.0), by_calliper(show, own.length), 8.0, over),
            *_named(own, suffix, cut),
            Callout("piece", (-0.35 * own.length, 0.8 * own.width), "right"),
            Callout("cut off", ((own.kerf + wide - own.length) / 2, 0.35 * own.width), "right"),
        ),
        height=115.0,
    )


def _bare(own: TrimSledLayout, left: float, low: float) -> tuple[Item, ...]:
    start, end = own.fence_ends
    return bare(own, left, low, box(max(start, left), -own.sheet, end, 0.0, fill="pale"), (0.0, own.kerf))


def _stop(own: TrimSledLayout) -> tuple[Item, ...]:
    low, high = own.stop_depth
    edge = [(own.slanted_at(low), low), (own.slanted_at(high), high)]
    return (
        polygon([(own.stop_left, low), *edge, (own.stop_left, high)], fill="metal"),
        *(disc(pin, 3.0, fill="ink") for pin in own.pins),
    )


def _named(own: TrimSledLayout, suffix: str, cut: str) -> tuple[Callout, ...]:
    _, low, right, _ = own.exit_block
    stop = f"layup-slanted-stop{suffix}" if own.slanted else f"layup-square-stop-{cut}{suffix}"
    finger = (sum(own.foot) / 2, own.hold.finger_end * 0.6)
    return (
        labelled("fence", f"layup-trim-fence{suffix}", (own.fence_ends[1] - 8, -own.sheet / 2), "right"),
        labelled("stop", stop, (own.stop_left + 60, own.stop_depth[1] - 6), "left"),
        Callout("its two pins", own.pins[0], "left"),
        labelled("hold-down", f"layup-trim-hold{suffix}", finger, "left"),
        labelled("exit block", f"layup-trim-exit-block{suffix}", (right - 8, low + 12), "right"),
        Callout("blade", (own.kerf / 2, own.far_edge + 30), "right"),
    )
