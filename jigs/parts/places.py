"""Lettering for jigs, and finding room on a plate: lettering and hanging holes go where nothing else is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from math import ceil, cos, sin

import numpy as np

from geometry.curves.room import PITCH, Room, nearest_spot, room
from geometry.plane.contour import Contour, circle
from geometry.plane.edges import FloatArray
from geometry.strokes.lettering import beyond, strokes, text_width
from jigs.asked.job_shop import Printer
from jigs.parts.part import Lettering, Line, Mark, Point, Words

LINE_PITCH = 1.7  # of lines, in cap heights
ENGRAVED = 5.0  # cap height on cut parts, mm
LATHE_CAUTION = ("LATHE STOPPED", "REST AWAY")
SAW_CAUTION = ("POWER OFF", "TO SET")


def raised_height(printer: Printer) -> float:
    """Cap height that a person reads at this nozzle: ten widths (4 mm at 0.4 mm)."""
    return 10 * printer.nozzle


def raised_width(printer: Printer) -> float:
    """Two lines of plastic."""
    return 2 * printer.nozzle


def raised_rise(printer: Printer) -> float:
    """Three layers."""
    return 3 * printer.layer


def block_width(lines: Sequence[str], height: float) -> float:
    """Width of the longest line, mm."""
    return max(text_width(line, height) for line in lines)


def block_height(lines: Sequence[str], height: float) -> float:
    """From the top of the first line to the foot of the last, with their accents, mm."""
    return height * (1 + LINE_PITCH * (len(lines) - 1) + beyond(lines[0])[0] + beyond(lines[-1])[1])


def block(lines: Sequence[str], left: float, top: float, height: float) -> tuple[Lettering, ...]:
    """Lines below each other, the first one's cap, or the accents on it, at `top`."""
    top -= height * beyond(lines[0])[0]
    return tuple(
        Lettering(line, (left, top - height * (1 + LINE_PITCH * i)), height) for i, line in enumerate(lines)
    )


def centred(text: str, centre: tuple[float, float], height: float, angle: float = 0.0) -> Lettering:
    """One line whose middle is `centre`; `angle` 0 or 90 degrees either way, or any other, radians."""
    half = text_width(text, height) / 2
    x = centre[0] - half * cos(angle) + height / 2 * sin(angle)
    y = centre[1] - half * sin(angle) - height / 2 * cos(angle)
    return Lettering(text, (x, y), height, angle)


FINE = 0.5  # pitch of the grid on which room is looked for where a coarser one has none, mm
MARGIN, TIGHT = 2.5, 1.2  # kept free around lettering, and around what a small plate has no more room for
SHORT_TITLE = 12  # characters of the title, where the plate is too small for all
WHOLE = "\N{NO-BREAK SPACE}"
ARROWS = frozenset("←→↑↓")
# The spaces within a length ("4.519 IN (4 33/64)") and behind a diameter's sign.
IN_A_LENGTH = re.compile(
    r"(?<=\d) (?=\d+/\d)|(?<=\d in) (?=\(\d)|(?<=\d) (?=(?:mm|in)\b)|(?<=Ø) (?=[\d.])", re.IGNORECASE
)
LEAST_HANG, WEB = 1.0, 0.8  # the smallest hole for a cord, and the least wood round it
LEAST_TEXT = 3.0  # cap height below which lettering is not read


class NoRoom(ValueError):
    """A plate too small for what has to be lettered on it, or hung by; `key` and `remedy` say what would do."""

    def __init__(self, message: str, key: str = "title", remedy: str = "shorten the title") -> None:
        self.key, self.remedy = key, remedy
        super().__init__(message)


def lettered(
    outline: Contour, holes: Sequence[Contour], lines: Sequence[Line], text: Sequence[str],
    near: Point | None = None, height: float = ENGRAVED, instead: Iterable[Sequence[str]] = (),
) -> tuple[Words, ...]:  # fmt: skip
    """Lettering up to `height` for which `place` finds room near a point, the outline's centroid unless given.

    Where there is none for `text`, the first text of `instead` for which there is some.
    """
    choices = (tuple(text), *map(tuple, instead))
    return (Words(outline, tuple(holes), tuple(lines), choices, near, height),)


@lru_cache(maxsize=512)  # after a change of the job most plates are as they were
def place(words: Words, taken: tuple[Mark, ...] = (), least: float = LEAST_TEXT) -> tuple[Lettering, ...]:
    """The first choice that has room clear of `taken`, in the largest size; else the first that has a narrow place.

    Lines are kept where they fit, else run together or broken. Raises NoRoom when not even the `least` size fits.
    """
    lines = paths((*words.lines, *taken))
    free = room(words.area, words.holes, lines)
    for text in words.choices:
        found = _largest(words, free, text, least)
        if found:
            return found
    free = room(words.area, words.holes, lines, FINE)
    for text in words.choices:
        found = _placed(words, free, text, min(words.height, least), TIGHT)
        if found:
            return found
    raise NoRoom(f"no room on the plate for the lettering {' / '.join(words.choices[0])!r}")


def _largest(words: Words, free: Room, text: tuple[str, ...], least: float) -> tuple[Lettering, ...]:
    """A text in its largest size; what has room in one has room in all that are smaller."""
    sizes, found = _sizes(words.height, least), tuple[Lettering, ...]()
    low, high, middle = 0, len(sizes), 0  # most texts have room in the first
    while low < high:
        placed = _placed(words, free, text, sizes[middle], MARGIN)
        low, high, found = (low, middle, placed) if placed else (middle + 1, high, found)
        middle = (low + high) // 2
    return found


@lru_cache(maxsize=64)
def _sizes(height: float, least: float) -> list[float]:
    """From the largest to the least."""
    return np.arange(height, least - 1e-9, -0.25).tolist() or [height]


def _ways(text: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """A text as it is, then rewrapped."""
    yield tuple(row.replace(WHOLE, " ") for row in text)
    yield from rewrapped(text)


@lru_cache(maxsize=4096)  # a text is tried in one size after the other
def _size(rows: tuple[str, ...]) -> tuple[float, float]:
    """Width and height of rows at a cap height of 1."""
    return block_width(rows, 1.0), block_height(rows, 1.0)


def _placed(
    words: Words, free: Room, text: tuple[str, ...], size: float, margin: float
) -> tuple[Lettering, ...]:
    """A text in one size, in the first way that has room; nothing where none has."""
    for rows in _ways(text):
        width, height = _size(rows)
        wide, tall = size * width + 2 * margin, size * height + 2 * margin
        spots = free.spots(wide, tall)
        if len(spots):
            left, bottom = nearest_spot(spots, (wide, tall), words.near or words.area.centroid)
            return block(rows, left + margin, bottom + tall - margin, size)
    return ()


def lettered_titled(
    outline: Contour, holes: Sequence[Contour], title: str, text: Sequence[str], lines: Sequence[Line] = ()
) -> tuple[Words, ...]:
    """Lettering under the job's title, or as much of it as a small plate has room for, or without it."""
    return lettered(
        outline, holes, lines, (title, *text), instead=((title[:SHORT_TITLE].strip(), *text), text)
    )


def rewrapped(text: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The lines run together and broken anew, from one row to many; lengths and a line with an arrow stay whole."""
    joined, widths = _run_together(text)
    for width in widths:
        yield _broken(joined, width)


@lru_cache(maxsize=1024)
def _run_together(text: tuple[str, ...]) -> tuple[str, tuple[int, ...]]:
    """The lines as one, and how long the rows may be that it is broken to."""
    joined = ", ".join(
        line.replace(" ", WHOLE) if ARROWS & set(line) else IN_A_LENGTH.sub(WHOLE, line) for line in text
    )
    for caution in (SAW_CAUTION, LATHE_CAUTION):
        joined = joined.replace(", ".join(caution), WHOLE.join(" ".join(caution).split(" ")))
    longest = max(map(len, joined.split(" ")))
    widths = [max(longest, ceil(len(joined) / rows)) for rows in range(1, len(text) + 4)]
    return joined, tuple(dict.fromkeys(widths))


@lru_cache(maxsize=4096)
def _broken(joined: str, width: int) -> tuple[str, ...]:
    """Rows of at most so many characters, which no word has more of."""
    row, *words = joined.split(" ")
    rows = []
    for word in words:
        if len(row) + 1 + len(word) <= width:
            row = f"{row} {word}"
        else:
            rows.append(row)
            row = word
    return tuple(row.replace(WHOLE, " ") for row in (*rows, row))


def hang_hole(outline: Contour, holes: Sequence[Contour], near: Point, radius: float = 2.5) -> Contour:
    """A hole to hang the plate by, at the free place nearest to `near`; on a small plate a smaller one.

    Raises NoRoom where not even the smallest has room.
    """
    tries = (
        (radius, PITCH, MARGIN),
        (radius, FINE, TIGHT),
        (LEAST_HANG, FINE, TIGHT),
        (LEAST_HANG, FINE, WEB),
    )
    for hole, pitch, margin in tries:
        size = 2 * (hole + margin)
        spots = room(outline, holes, (), pitch).spots(size, size)
        if len(spots):
            left, bottom = nearest_spot(spots, (size, size), near)
            return circle((left + size / 2, bottom + size / 2), hole).cw()
    raise NoRoom("no room on the plate for its hanging hole")


def as_lines(marks: Iterable[Mark | Words]) -> list[Line]:
    """Every mark as lines: text by its strokes; what has no place yet takes none."""
    found: list[Line] = []
    for mark in marks:
        if isinstance(mark, Line):
            found.append(mark)
        elif not isinstance(mark, Words):
            found += [Line(tuple(map(tuple, stroke.tolist()))) for stroke in _drawn(mark)]
    return found


def paths(marks: Iterable[Mark]) -> list[tuple[tuple[float, float], ...] | FloatArray]:
    """The points (k, 2) of the same lines."""
    return [path for mark in marks for path in ([mark.points] if isinstance(mark, Line) else _drawn(mark))]


def _drawn(mark: Lettering) -> tuple[FloatArray, ...]:
    return strokes(mark.text, mark.origin, mark.height, mark.angle)
