"""The torus on the lathe, cut through the axis: each mounting, what holds, what is turned in it.

x is the radius, y the height over the tube's centre, the faceplate always below; from B on the side that was turned
first lies down. Angles round the tube are the work's own (`geometry.lathe.mountings`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import atan2, cos, hypot, pi, sin, tau

from geometry.bodies.tube import Tube
from geometry.hardware.fittings import bolt_diameter, called, head_place
from geometry.lathe.mountings import Arc, Mounting
from geometry.plane.contour import regular_polygon
from jigs.figures.figure import Figure
from jigs.figures.items import (
    Callout,
    Dimension,
    Item,
    Point,
    Shape,
    along,
    area,
    box,
    line,
    polygon,
    tube,
    upside_down,
)
from jigs.figures.saws.common import CENTRE_LINE
from jigs.figures.told import Show, by_calliper, labelled, named
from jigs.parts.part import Part
from jigs.plans.torus import TorusPlan

STEP = pi / 90  # round the tube, of outlines of wood
PLATE = 9.0  # mm of the faceplate's thickness shown
BESIDE = 14.0  # mm of the axis shown past all else
NUT = 8.0


def mounting_a(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """The blank glued to the first board."""
    first, form = plan.mountings.first, plan.job.form
    board = parts["first-board-section"].outline
    rim = board.bounds[2]
    return _figure(
        "A",
        "Mounting A: the blank glued to the first board",
        "The blank's flats are glued to the first board round its spigot. Face, rim and hole are turned.",
        (
            area(board, fill="jig"),
            *_faceplate(board.bounds[1], rim),
            *_work(plan, "A", up=1),
            Dimension((rim, -first.centre_height), (rim, 0.0), by_calliper(show, first.centre_height), -6.0),
            line((form.major_radius, 0.0), (rim, 0.0), paint="grey", dashes=CENTRE_LINE),
            labelled("first board", "support-board-layer", (rim - 8, board.bounds[1] + 6), "right"),
            Callout("spigot", (first.spigot_radius - 6, -first.centre_height + 1), "left"),
            Callout("glued flat", (form.major_radius, -first.centre_height), "left"),
        ),
    )


def mounting_b(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """Reversed on the retainer, to turn the first board away."""
    first = plan.mountings.first
    board = upside_down(parts["first-board-section"].outline)
    retainer = upside_down(parts["retainer-section"].outline)
    x0, low, rim, top = board.bounds
    base = retainer.bounds[1]
    return _figure(
        "B",
        "Mounting B: reversed on the retainer",
        "The retainer fills the hole from the headstock's side, one bolt draws the work to it through the old first "
        "board. The board is turned away down to the flats, the rest is sawn by hand.",
        (
            area(retainer, fill="pale"),
            *_faceplate(base, retainer.bounds[2]),
            area(board, fill="jig"),
            box(first.left, low, rim, top, fill="turned"),
            *_work(plan, "B", up=-1),
            *_bolt(plan, base - PLATE, top),
            labelled("retainer", "retainer-layer", (retainer.bounds[0] + 12, base + 8), "left"),
            labelled("old board", "support-board-layer", (x0 + 18, top - 8), "left"),
            Callout(
                f"turned away to Ø {by_calliper(show, 2 * first.left)}", (rim - 10, (low + top) / 2), "right"
            ),
        ),
    )


def mounting_c(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """In the channel, braces on the waste flat."""
    brace = plan.mountings.brace
    board = parts["channel-section"].outline
    face, flat = -plan.holding.channel.centre_height, plan.mountings.setting.flat_height
    layers = face + brace.layers * brace.thickness
    strap = flat + brace.thickness
    codes = ("brace-block-layer",) if brace.layers else ()
    return _figure(
        "C",
        "Mounting C: in the channel, held by braces",
        "The finished side lies in the channel. Braces press on the outer half of the waste flat; the hole side is "
        "turned up to their fingers.",
        (
            area(board, fill="jig"),
            *_faceplate(board.bounds[1], board.bounds[2]),
            *_work(plan, "C", up=-1),
            *_capped(plan, board.bounds[1]),
            box(brace.block_inner, face, brace.outer, layers, fill="pale"),
            box(brace.block_inner, layers, brace.outer, face + brace.stack, fill="metal"),
            box(brace.tip, flat, brace.outer, strap, fill="pale"),
            *_rod(brace.bolt_radius, brace.hole / 2 - 0.5, board.bounds[1], strap + NUT),
            Dimension((brace.outer, face), (brace.outer, flat), by_calliper(show, brace.height), -6.0),
            line((brace.tip, flat), (brace.outer + 4, flat), paint="grey"),
            labelled("channel board", "support-board-layer", (board.bounds[0] + 20, face - 10), "left"),
            labelled("brace", "brace-strap", (brace.outer - 6, strap - 5), "right"),
            labelled("pad", "brace-pad", (brace.outer - 4, (layers + face + brace.stack) / 2), "right"),
            Callout(named("block", *codes), (brace.outer - 5, (face + layers) / 2), "right"),
        ),
    )


def mounting_d(plan: TorusPlan, parts: Mapping[str, Part], show: Show) -> Figure:
    """In the channel, the retainer in the hole."""
    board, retainer = parts["channel-section"].outline, parts["retainer-section"].outline
    face, top, rim = -plan.holding.channel.centre_height, retainer.bounds[3], board.bounds[2]
    return _figure(
        "D",
        "Mounting D: in the channel, held by the retainer",
        "One bolt draws the retainer into the hole and the work into its channel. The waste flats are turned away.",
        (
            area(board, fill="jig"),
            *_faceplate(board.bounds[1], board.bounds[2]),
            area(retainer, fill="pale"),
            *_work(plan, "D", up=-1),
            *_bolt(plan, board.bounds[1], top),
            Dimension((rim, face), (rim, 0.0), by_calliper(show, -face), -6.0),
            line((plan.job.form.major_radius, 0.0), (rim, 0.0), paint="grey", dashes=CENTRE_LINE),
            labelled("retainer", "retainer-layer", (retainer.bounds[0] + 12, top - 4), "left"),
            labelled("channel board", "support-board-layer", (board.bounds[0] + 20, face - 10), "left"),
        ),
    )


def _figure(name: str, title: str, alt: str, items: Iterable[Item]) -> Figure:
    drawn = tuple(items)
    shapes = [item for item in drawn if isinstance(item, Shape)]
    low = min(y for shape in shapes for _, y, _ in shape.rows) - BESIDE
    high = max(y for shape in shapes for _, y, _ in shape.rows) + BESIDE
    axis = line((0.0, low), (0.0, high), paint="ink", dashes=CENTRE_LINE)
    return Figure(
        f"mounting.{name}", title, alt, (axis, *drawn, Callout("axis of the lathe", (0.0, high - 3), "left"))
    )


def _work(plan: TorusPlan, name: str, up: int) -> tuple[Item, ...]:
    """The tube: what is left of the blank round it, what this mounting turns, what it is when finished."""
    blank, own, major = plan.blank, plan.job.form.tube, plan.job.form.major_radius
    middle = (blank.centre, 0.0)
    ring = regular_polygon(blank.segments, blank.apothem, -pi / 2, middle).points
    core = regular_polygon(blank.segments, blank.core_apothem, -pi / 2, middle)
    mountings = plan.mountings.mountings
    index = [m.name for m in mountings].index(name)
    gone = [m.turns for m in mountings[:index] if m.turns]
    corners = [(float(x) - major, float(y)) for x, y in ring]
    flat = -plan.mountings.setting.flat_height

    def out(angle: float) -> float:
        """From the tube's centre to where the wood ends."""
        if any(arc.contains(angle) for arc in gone):
            return finished(angle)
        return _ray(corners, seen(angle), flat)

    def seen(angle: float) -> float:
        """From the tube's centre, where its normal has this angle."""
        return angle if own.round else atan2(*reversed(own.at(angle)))

    def finished(angle: float) -> float:
        return own.wide if own.round else hypot(*own.at(angle))

    def at(angle: float, radius: float) -> Point:
        turn = seen(angle)
        return (major + radius * cos(turn), up * radius * sin(turn))

    round_ = [k * STEP for k in range(round(tau / STEP))]
    now = mountings[index]
    turned = (_turned(now.turns, out, at, finished),) if now.turns else ()
    return (
        polygon([at(angle, out(angle)) for angle in round_], fill="waste"),
        *turned,
        tube(own, major, fill="wood"),
        area(core, fill="paper"),
        *_touching(now, major, own, up),
        *((_told(now.turns, at, out),) if now.turns else ()),
    )


def _turned(
    turns: Arc,
    out: Callable[[float], float],
    at: Callable[[float, float], Point],
    finished: Callable[[float], float],
) -> Shape:
    """Between the finished tube and the wood that stands over it."""
    count = max(2, round(turns.span / STEP))
    angles = [turns.start + turns.span * k / count for k in range(count + 1)]
    outer = [at(angle, out(angle)) for angle in angles]
    return polygon([*outer, *(at(angle, finished(angle)) for angle in reversed(angles))], fill="turned")


def _told(turns: Arc, at: Callable[[float, float], Point], out: Callable[[float], float]) -> Callout:
    angle = turns.start + 0.5 * turns.span
    return Callout("turned now", at(angle, out(angle) - 0.6))


def _touching(now: Mounting, major: float, own: Tube, up: int) -> tuple[Item, ...]:
    """Where something holds on finished wood, thick."""
    found: list[Item] = []
    for hold in now.holds:
        if hold.on == "finished":
            a, b = (hold.bears.start, hold.bears.end) if up > 0 else (-hold.bears.end, -hold.bears.start)
            found.append(along(own, major, a, b, width=0.9))
            x, y = own.at(b - 0.1)
            end = (major + x, y)
            found.append(Callout(f"{hold.what} touches", end))
    return tuple(found)


def _ray(corners: list[Point], angle: float, flat: float) -> float:
    """From the origin to a polygon round it, not below the flat that was sanded."""
    c, s = cos(angle), sin(angle)
    found = []
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        dx, dy = bx - ax, by - ay
        cross = c * dy - s * dx
        if abs(cross) < 1e-12:
            continue
        along, share = (ax * dy - ay * dx) / cross, (ax * s - ay * c) / cross
        if along > 0 and -1e-9 <= share <= 1 + 1e-9:
            found.append(along)
    return min(*found, flat / s) if s * flat > 0 else min(found)


def _faceplate(y: float, rim: float) -> tuple[Item, ...]:
    """Below a board whose back is at this height."""
    return (
        box(0.0, y - PLATE, 0.62 * rim, y, fill="metal"),
        Callout("faceplate", (0.4 * rim, y - PLATE / 2), "left"),
    )


def _bolt(plan: TorusPlan, low: float, high: float) -> tuple[Item, ...]:
    """The one along the axis, with its washer."""
    half, washer = plan.holding.bolt_hole / 2 - 0.5, plan.holding.washer / 2
    return (
        box(0.0, low, half, high + 2 * NUT, fill="metal"),
        box(0.0, high, washer, high + 3.0, fill="metal"),
        Callout(f"bolt {called(plan.holding.bolt)}, washer", (half, high + NUT), "right"),
    )


def _capped(plan: TorusPlan, back: float) -> tuple[Item, ...]:
    """The centre bolt, its head let into the board's back and its end flush with the cap that is screwed on."""
    half, cap = bolt_diameter(plan.holding.bolt) / 2, plan.mountings.cap / 2
    head = back + head_place(plan.holding.bolt)[1]
    end = head + plan.mountings.centre_bolt
    low = end - plan.mountings.cap_thick
    return (
        box(0.0, low, cap, end, fill="pale"),
        box(0.0, back, half, end, fill="metal"),
        Callout("centre bolt's cap", (0.7 * cap, (low + end) / 2), "left"),
    )


def _rod(x: float, half: float, low: float, high: float) -> tuple[Item, ...]:
    return (box(x - half, low, x + half, high, fill="metal"), Callout("bolt", (x, high - 2), "right"))
