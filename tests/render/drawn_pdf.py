"""What a page of a PDF draws, read from its content: lines in mm from the page's upper left corner, y down.

pypdf finds the content; to have it cut that into words too would take five times as long. Operators and matrices as
ISO 32000-1, 8.3 to 8.5, has them.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
import pypdfium2
from pypdf import PageObject, PdfReader
from pypdf.generic import StreamObject

POINT = 25.4 / 72  # mm
BROKEN = "\ufffe"  # how PDFium tells of a hyphen that ends a line
STEPS = 24  # chords of a cubic
WORDS = re.compile(rb"BT\b.*?\bET\b|<<.*?>>|/?[^\s/\[\]<>()]+", re.DOTALL)


@dataclass(frozen=True)
class Stroke:
    """Points (k, 2) of one line; the box (x0, y0, x1, y1) that it is clipped to; its width."""

    points: np.ndarray
    clip: tuple[float, float, float, float]
    width: float

    @property
    def across(self) -> float:
        return float(np.ptp(self.points[:, 0]))

    @property
    def down(self) -> float:
        return float(np.ptp(self.points[:, 1]))


@cache
def reader(pdf: bytes) -> PdfReader:
    """Made once of each: it looks at every object of the file."""
    return PdfReader(io.BytesIO(pdf))


def read_pages(pdf: bytes) -> list[str]:
    """The words of each page, by PDFium: pypdf takes twenty times as long."""
    pages = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_range().replace(BROKEN, "-") for page in pages]


def page_size(page: PageObject) -> tuple[float, float]:
    return float(page.mediabox.width) * POINT, float(page.mediabox.height) * POINT


def strokes(page: PageObject) -> list[Stroke]:
    """Every line that is stroked, in its order."""
    width, height = page_size(page)
    down = np.array([[POINT, 0, 0], [0, -POINT, 0], [0, height, 1]])
    found: list[Stroke] = []
    _run(page.get_contents(), page["/Resources"], down, (0.0, 0.0, width, height), found)
    return found


def _run(content, resources, matrix, clip, found) -> None:
    state, kept = (matrix, clip, 1.0), []
    lines: list[list[tuple[float, float]]] = []
    clipping = False
    for name, numbers, operator in _operations(content.get_data()):
        matrix, clip, width = state
        match operator:
            case "q":
                kept.append(state)
            case "Q":
                state = kept.pop()
            case "cm":
                state = (_matrix(numbers) @ matrix, clip, width)
            case "w":
                state = (matrix, clip, numbers[0])
            case "m":
                lines.append([(numbers[0], numbers[1])])
            case "l":
                lines[-1].append((numbers[0], numbers[1]))
            case "c":
                lines[-1] += _cubic(lines[-1][-1], numbers)
            case "h":
                lines[-1].append(lines[-1][0])
            case "re":
                x, y, w, h = numbers
                lines.append([(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)])
            case "W" | "W*":
                clipping = True
            case "S" | "s" | "B" | "b" | "B*" | "b*" | "f" | "f*" | "F" | "n" as ends:
                if clipping:
                    state = (matrix, _met(clip, [_placed(line, matrix) for line in lines]), width)
                elif ends in "SsBb":
                    scale = float(np.sqrt(abs(np.linalg.det(matrix[:2, :2]))))
                    found += [Stroke(_placed(line, matrix), clip, width * scale) for line in lines]
                lines, clipping = [], False
            case "Do":
                form = resources["/XObject"][name].get_object()
                if isinstance(form, StreamObject) and form["/Subtype"] == "/Form":
                    own = _matrix([float(n) for n in form.get("/Matrix", (1, 0, 0, 1, 0, 0))]) @ matrix
                    _run(form, form.get("/Resources", resources), own, clip, found)


def _operations(data: bytes) -> Iterator[tuple[str, list[float], str]]:
    """The last name and the numbers before each operator, and this; without text, in which nothing is stroked."""
    name, numbers = "", []
    for word in WORDS.findall(data):
        if word[0] in b"+-.0123456789":
            numbers.append(float(word))
        elif word[0] in b"/":
            name = word.decode("latin-1")
        elif not word.startswith((b"BT", b"<<")):
            yield name, numbers, word.decode("latin-1")
            name, numbers = "", []


def _matrix(six) -> np.ndarray:
    a, b, c, d, e, f = six
    return np.array([[a, b, 0], [c, d, 0], [e, f, 1]])


def _placed(line, matrix) -> np.ndarray:
    return (np.column_stack([np.array(line), np.ones(len(line))]) @ matrix)[:, :2]


def _cubic(start, numbers) -> list[tuple[float, float]]:
    points = np.array([start, *zip(numbers[::2], numbers[1::2], strict=True)])
    t = np.linspace(0, 1, STEPS + 1)[1:, None]
    weights = np.hstack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3])
    return [(x, y) for x, y in (weights @ points).tolist()]


def _met(clip, lines) -> tuple[float, float, float, float]:
    points = np.concatenate(lines)
    low, high = points.min(axis=0), points.max(axis=0)
    return (max(clip[0], low[0]), max(clip[1], low[1]), min(clip[2], high[0]), min(clip[3], high[1]))
