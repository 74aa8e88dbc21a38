"""Pictures of what is out of true, as much larger as it takes to see it; the figure beside is the true one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi, sin

from geometry.bodies.torus import Blank
from jigs.figures.figure import Figure
from jigs.figures.items import Caption, Dimension, Item, Point, polygon

SIZE = (96.0, 74.0)  # mm of paper, of which a pane shows each about as large
TIMES = (1, 2, 5, 10, 20, 50, 100, 200, 500)
OF_WHOLE = 0.12  # of what is drawn, that what is out comes to at least, where it can
SHOWN = 3  # wedge rings with steps


def open_ring(segments: int, outer: float, core: float, error: float, gap: str) -> Figure:
    """A ring from above, whose ends are all out by `error`; its last joint is to the right."""
    radius, inner = outer / cos(pi / segments), core / cos(pi / segments)
    times = enlarged(2 * segments * error * radius, 2 * radius)
    pieces, ends = _open(segments, inner, radius, 2 * segments * error * times)
    return _figure(
        "mitre",
        "A ring from above: its last joint stays open",
        times,
        f"{segments} segments of a ring from above; the last joint is open by {gap} at the outside.",
        [*pieces, Dimension(*ends, gap, off=-6.0, times=times)],
    )


def open_torus(blank: Blank, error: float, gap: str) -> Figure:
    """All wedge rings from above, each spanning `error` too little."""
    c = cos(blank.half_wedge)
    inner, outer, rings = blank.inner_radius / c, blank.outer_radius / c, blank.wedge_rings
    times = enlarged(rings * error * outer, 2 * outer)
    pieces, ends = _open(rings, inner, outer, rings * error * times)
    return _figure(
        "wedge",
        "The torus from above: its last joint stays open",
        times,
        f"{rings} wedge rings from above; the last joint is open by {gap} at the rim.",
        [*pieces, Dimension(*ends, gap, off=-6.0, times=times)],
    )


def stepped(blank: Blank, step: float, text: str, title: str) -> Figure:
    """Wedge rings side by side, skewed: each stands a `step` out from the next."""
    wide, high = blank.thick_edge, 2 * blank.apothem
    times = enlarged(step, high)
    up = step * times
    rings = [
        polygon([(k * wide, 0), ((k + 1) * wide, up), ((k + 1) * wide, high + up), (k * wide, high)], "wood")
        for k in range(SHOWN)
    ]
    return _figure(
        "steps",
        title,
        times,
        f"{SHOWN} wedge rings side by side, each skewed; a step of {text} from one to the next.",
        [*rings, Dimension((wide, high), (wide, high + up), text, off=0.0, times=times)],
    )


def open_halves(blank: Blank, nearer: float, text: str) -> Figure:
    """Two halves from above, each `nearer` short of the line between them."""
    c = cos(blank.half_wedge)
    inner, outer, rings = blank.inner_radius / c, blank.outer_radius / c, blank.wedge_rings
    times = enlarged(2 * nearer, 2 * outer)
    pieces = [
        _piece(inner, outer, turn, turn + 2 * pi / rings, nearer * times * (1 if turn < pi - 1e-6 else -1))
        for turn in (2 * pi * k / rings for k in range(rings))
    ]
    ends: tuple[Point, Point] = ((outer, -nearer * times), (outer, nearer * times))
    return _figure(
        "half-end",
        "Two halves from above, in their places",
        times,
        f"Two half rings from above; both joints between them are open by {text}.",
        [*(polygon(one, "wood") for one in pieces), Dimension(*ends, text, off=-6.0, times=times)],
    )


def enlarged(size: float, whole: float) -> int:
    """How many times as large a size has to be drawn to be seen beside something so large."""
    return next((times for times in TIMES if size * times >= OF_WHOLE * whole / 2), TIMES[-1])


def _open(count: int, inner: float, outer: float, gap: float) -> tuple[Iterator[Item], tuple[Point, Point]]:
    """So many pieces, what they leave open to the right, an angle; and the outer ends of that."""
    each = (2 * pi - gap) / count
    turns = [gap / 2 + k * each for k in range(count)]
    ends = _at(outer, -gap / 2), _at(outer, gap / 2)
    return (polygon(_piece(inner, outer, turn, turn + each), "wood") for turn in turns), ends


def _piece(inner: float, outer: float, start: float, end: float, up: float = 0.0) -> list[Point]:
    points = _at(inner, start), _at(outer, start), _at(outer, end), _at(inner, end)
    return [(x, y + up) for x, y in points]


def _at(radius: float, turn: float) -> Point:
    return radius * cos(turn), radius * sin(turn)


def _figure(id: str, title: str, times: int, alt: str, items: Sequence[Item]) -> Figure:
    drawn = f"What is out is drawn {times} times as large" if times > 1 else "Drawn as large as it is"
    width, height = SIZE
    caption = Caption((title, drawn))
    return Figure(f"mistake.{id}", title, f"{alt} {drawn}.", (*items, caption), width=width, height=height)
