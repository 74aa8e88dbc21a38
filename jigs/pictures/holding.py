"""The holding plan round the tube: a ring for each mounting, what it turns, what holds, where they overlap."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from math import cos, degrees, pi, sin, tau

from geometry.mountings import Arc, Hold, Mounting
from jigs.plan.torus import TorusPlan
from jigs.words.mountings import span_text

WIDTH, HEIGHT = 1160, 640
CENTRE = (400.0, 320.0)
TUBE = 90.0  # radius of the tube's section in the picture
FIRST, STEP, BAND = 122.0, 36.0, 22.0  # rings: first radius, pitch, width
TURNED, WASTE, FINISHED, COVERED, OVERLAP = "#3b6ea5", "#b5651d", "#4f8a4f", "#d9d9d9", "#f2b705"
WOOD, INK = "#ead7b7", "#222222"
LINE = 20.0  # of the text beside the rings
BESIDE = 820.0
NAMES = {
    "A": "A  first board",
    "B": "B  retainer",
    "C": "C  channel, braces",
    "D": "D  channel, retainer",
}


def holding_picture(plan: TorusPlan) -> str:
    """The picture as SVG text."""
    mountings = plan.mountings.mountings
    body = [
        *_overlaps(mountings),
        *_tube(plan),
        *(item for i, m in enumerate(mountings) for item in _ring(m, FIRST + STEP * i)),
        *_directions(FIRST + STEP * len(mountings)),
        *_words(plan),
    ]
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'font-family="sans-serif" font-size="14">'
    )
    return "\n".join([head, f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>', *body, "</svg>", ""])


def _at(radius: float, angle: float) -> tuple[float, float]:
    """A place of the picture, whose y runs down."""
    return CENTRE[0] + radius * cos(angle), CENTRE[1] - radius * sin(angle)


def _arc(arc: Arc, radius: float, colour: str, width: float = BAND) -> str:
    """A stroke along an arc, which may be more than half a turn."""
    (x0, y0), (x1, y1) = _at(radius, arc.start), _at(radius, arc.end)
    large = int(arc.span > pi)
    path = f"M{x0:.2f} {y0:.2f}A{radius:.2f} {radius:.2f} 0 {large} 0 {x1:.2f} {y1:.2f}"
    return f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width:g}"/>'


def _text(
    x: float, y: float, words: str, anchor: str = "start", colour: str = INK, weight: str = "normal"
) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{colour}" font-weight="{weight}">'
        f"{escape(words)}</text>"
    )


def _tube(plan: TorusPlan) -> list[str]:
    """The tube's section, and the waste flat below it."""
    setting = plan.mountings.setting
    scale = TUBE / setting.tube
    y = CENTRE[1] + setting.flat_height * scale
    x0, x1 = CENTRE[0] - setting.flat_inner * scale, CENTRE[0] + setting.flat_outer * scale
    return [
        f'<circle cx="{CENTRE[0]:g}" cy="{CENTRE[1]:g}" r="{TUBE:g}" fill="{WOOD}" stroke="{INK}"/>',
        f'<path d="M{x0:.2f} {y:.2f}L{x1:.2f} {y:.2f}" stroke="{WASTE}" stroke-width="3"/>',
        _text(CENTRE[0], CENTRE[1] - 12, "tube", "middle"),
        _text(CENTRE[0], CENTRE[1] + 6, "(axis of the torus", "middle"),
        _text(CENTRE[0], CENTRE[1] + 24, "to the left)", "middle"),
    ]


def _ring(mounting: Mounting, radius: float) -> list[str]:
    outline = f'<circle cx="{CENTRE[0]:g}" cy="{CENTRE[1]:g}" r="{radius:g}" fill="none" stroke="#eeeeee"/>'
    covers = [_arc(hold.covers, radius, COVERED) for hold in mounting.holds]
    bears = [_arc(hold.bears, radius, _colour(hold)) for hold in mounting.holds]
    turned = [_arc(mounting.turns, radius, TURNED)] if mounting.turns else []
    x, y = _at(radius, pi / 2)
    name = [
        f'<circle cx="{x:.2f}" cy="{y:.2f}" r="15" fill="#ffffff" stroke="{INK}"/>',
        _text(x, y + 5, mounting.name, "middle", weight="bold"),
    ]
    return [outline, *covers, *bears, *turned, *name]


def _colour(hold: Hold) -> str:
    return WASTE if hold.on == "waste" else FINISHED


def _between(mountings: Iterable[Mounting]) -> list[tuple[str, Arc]]:
    """Where one mounting's arc runs into the next one's, with both names."""
    turning = [(m.name, m.turns) for m in mountings if m.turns]
    found = []
    for (one, arc), (other, after) in zip(turning, turning[1:] + turning[:1], strict=True):
        start = arc.end - (arc.end - after.start) % tau
        found.append((f"{one} + {other}", Arc(start, arc.end)))
    return found


def _overlaps(mountings: tuple[Mounting, ...]) -> list[str]:
    """A wedge from the tube out past the rings for each overlap, with its size."""
    inner, outer = TUBE, FIRST + STEP * len(mountings) - 4
    drawn = []
    for names, arc in _between(mountings):
        drawn.append(_arc(arc, (inner + outer) / 2, OVERLAP, outer - inner))
        x, y = _at(outer + 26, (arc.start + arc.end) / 2)
        anchor = "end" if x < CENTRE[0] else "start"
        drawn.append(_text(x, y, f"{names}: {degrees(arc.span):.0f}°", anchor))
    return drawn


def _directions(radius: float) -> list[str]:
    places = ((0.0, "0° rim", "start"), (pi / 2, "90° face", "middle"), (pi, "180° hole", "end"))
    return [
        *(_text(_at(radius, a)[0], _at(radius, a)[1] + 4, words, anchor) for a, words, anchor in places),
        _text(CENTRE[0], CENTRE[1] + radius + 10, "270° waste flat", "middle"),
    ]


def _words(plan: TorusPlan) -> list[str]:
    """Title, what each mounting does, and the colours."""
    lines: list[str] = []
    y = 40.0
    lines.append(_text(BESIDE, y, f"{plan.job.title}: holding plan", weight="bold"))
    for mounting in plan.mountings.mountings:
        y += 1.6 * LINE
        lines.append(_text(BESIDE, y, NAMES[mounting.name], weight="bold"))
        turned = (
            f"turns {span_text(mounting.turns)}" if mounting.turns else "turns the first board away, no wood"
        )
        for words in (turned, *(_held(hold) for hold in mounting.holds)):
            y += LINE
            lines.append(_text(BESIDE + 12, y, words))
    y += 2 * LINE
    return lines + [item for i, key in enumerate(KEYS) for item in _key(*key, y + LINE * i)]


KEYS = (
    (TURNED, "turned"),
    (FINISHED, "holds on what is finished"),
    (WASTE, "holds on waste"),
    (COVERED, "kept from the tool, tool room included"),
    (OVERLAP, "turned in two mountings"),
)


def _key(colour: str, words: str, y: float) -> list[str]:
    box = f'<rect x="{BESIDE:g}" y="{y - 12:.1f}" width="18" height="14" fill="{colour}"/>'
    return [box, _text(BESIDE + 28, y, words)]


def _held(hold: Hold) -> str:
    return f"{hold.what} on {hold.on} wood, {span_text(hold.bears)}"
