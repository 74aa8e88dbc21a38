"""Which strokes draw a character: a glyph of its own, one that looks like it, or letters and accents put together."""

from __future__ import annotations

import unicodedata
from functools import cache

from geometry.strokes.accents import ABOVE, BELOW, BESIDE, FOOT, HEAD
from geometry.strokes.glyphs import GLYPHS, LOOKS_LIKE

Stroke = tuple[tuple[float, float], ...]
APART = 5.0  # of letters side by side, in the grid's twelfths of the cap height
NEXT_ACCENT = 4.0  # of a second accent above, to the right of the first


def has_glyph(character: str) -> bool:
    """Whether the font can draw this character."""
    return strokes_of(character) is not None


def letterable(text: str) -> tuple[str, str]:
    """The text without what the font cannot draw in upper case, blanks run together; and what was left out."""
    composed = unicodedata.normalize("NFC", text)
    missing = [one for one in composed if not all(has_glyph(upper) for upper in one.upper())]
    kept = "".join(one for one in composed if one not in missing)
    return " ".join(kept.split()), "".join(dict.fromkeys(missing))


@cache
def strokes_of(character: str) -> tuple[Stroke, ...] | None:
    """The strokes of one character in twelfths of the cap height, right of 0; None where it cannot be drawn.

    Lower case is drawn as upper case, "ß" as "SS", a letter with an accent as the letter under its accent.
    """
    for one in (character, character.upper()):
        own = GLYPHS.get(LOOKS_LIKE.get(one, one))
        if own is not None:
            return tuple(_stroke(text) for text in own.split("|") if text)
    if unicodedata.category(character)[0] not in "LNPSM":
        return None
    return _put_together(unicodedata.normalize("NFKD", character).upper())


def _stroke(text: str) -> Stroke:
    points = (point.split(",") for point in text.split())
    return tuple((float(x), float(y)) for x, y in points)


def _put_together(parts: str) -> tuple[Stroke, ...] | None:
    """Letters side by side, accents on the letter before them; None where one of them is unknown."""
    found: list[Stroke] = []
    left = right = 0.0
    accents = 0
    for part in parts:
        base = GLYPHS.get(LOOKS_LIKE.get(part, part))
        if base:
            left = right + APART if found else 0.0
            letter = [_moved(_stroke(text), left) for text in base.split("|")]
            right = max(x for stroke in letter for x, _ in stroke)
            found, accents = [*found, *letter], 0
        elif found and (accent := _accent(part, left, right, accents)):
            found, accents = [*found, *accent], accents + (part in ABOVE)
        else:
            return None
    leftmost = min((x for stroke in found for x, _ in stroke), default=0.0)
    return tuple(_moved(stroke, -leftmost) for stroke in found) or None


def _accent(mark: str, left: float, right: float, above: int) -> list[Stroke]:
    """An accent on a letter that reaches from left to right, beside so many others above it; nothing if unknown."""
    middle = (left + right) / 2
    places = (
        (ABOVE, middle + NEXT_ACCENT * above),
        (BELOW, middle),
        (FOOT, right),
        (HEAD, right),
        (BESIDE, middle),
    )
    return [
        _moved(_stroke(text), x)
        for accents, x in places
        if mark in accents
        for text in accents[mark].split("|")
    ]


def _moved(stroke: Stroke, by: float) -> Stroke:
    return tuple((x + by, y) for x, y in stroke)
