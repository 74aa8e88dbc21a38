"""Pictures with words under them, as PNG."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import cast

import numpy as np
from PIL import Image as Pillow
from PIL import ImageDraw, ImageFont

from jigs.figures.colours import RGB
from jigs.looks.views import Image

Font = ImageFont.FreeTypeFont

PAPER, INK, GREY = (255, 255, 255), (34, 34, 34), (110, 110, 110)
TITLE, WORDS = 0.024, 0.018  # heights of letters, of the picture's width
LEAST = 11  # pixels
GAP = 0.7  # between lines, of a letter's height


def png(picture: Image, caption: Sequence[str] = ()) -> bytes:
    """A picture (h, w, 3), its caption under it on white, the first line larger. Same picture, same bytes."""
    page = _captioned(picture, caption) if caption else Pillow.fromarray(picture)
    stream = io.BytesIO()
    page.save(stream, "PNG", compress_level=4)
    return stream.getvalue()


def stacked(pictures: Sequence[Image], between: int) -> Image:
    """Pictures of one width under each other, with so many white rows between them."""
    gap = np.full((between, pictures[0].shape[1], 3), 255, dtype=np.uint8)
    rows = [part for picture in pictures for part in (gap, picture)][1:]
    return np.concatenate(rows)


def _captioned(picture: Image, caption: Sequence[str]) -> Pillow.Image:
    height, width, _ = picture.shape
    margin = round(0.04 * width)
    lines = _set(caption, width, width - 2 * margin)
    below = sum(round(font.size * (1 + GAP)) for _, font, _ in lines)
    page = Pillow.new("RGB", (width, height + below + margin // 2), PAPER)
    page.paste(Pillow.fromarray(picture), (0, 0))
    draw, y = ImageDraw.Draw(page), height + margin // 4
    for text, font, colour in lines:
        draw.text((margin, y), text, colour, font)
        y += round(font.size * (1 + GAP))
    return page


def _set(caption: Sequence[str], width: int, room: float) -> list[tuple[str, Font, RGB]]:
    """The caption's lines with their fonts, broken between words to the room."""
    found = []
    for k, text in enumerate(caption):
        font = cast("Font", ImageFont.load_default(max(LEAST, round(width * (WORDS if k else TITLE)))))
        found += [(line, font, GREY if k else INK) for line in _broken(text, font, room)]
    return found


def _broken(text: str, font: Font, room: float) -> list[str]:
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and font.getlength(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
