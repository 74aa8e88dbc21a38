"""Which strokes draw a character: a glyph of its own, one that looks like it, or letters and accents put together."""

from __future__ import annotations

import unicodedata
from functools import cache

from geometry.strokes.glyphs import GLYPHS, LOOKS_LIKE

# Accents stand clear of letters 12 high by about 3, so that at a cap height of 4 mm and a stroke of 0.8 mm a gap is
# left; x from the middle of the letter, or from its right side.
ABOVE = {
    "\u0300": "-2,17.5 1,15",  # grave
    "\u0301": "-1,15 2,17.5",  # acute
    "\u0302": "-3,15 0,17.5 3,15",  # circumflex
    "\u0303": "-3.5,15 -1.5,17 1.5,15 3.5,17",  # tilde
    "\u0304": "-3,16 3,16",  # macron
    "\u0306": "-3,17.5 -1.5,15 1.5,15 3,17.5",  # breve
    "\u0307": "0,15.5 0,16.5",  # dot
    "\u0308": "-2.5,15.5 -2.5,16.5|2.5,15.5 2.5,16.5",  # two dots
    "\u0309": "-1.5,17 0,18 1.5,17 0,15",  # hook
    "\u030a": "0,14.5 -2,16.5 0,18.5 2,16.5 0,14.5",  # ring
    "\u030b": "-3.5,15 -1.5,17.5|1,15 3,17.5",  # two acutes
    "\u030c": "-3,17.5 0,15 3,17.5",  # caron
    "\u030f": "-3,17.5 -1,15|1.5,17.5 3.5,15",  # two graves
    "\u0311": "-3,15 -1.5,17.5 1.5,17.5 3,15",  # inverted breve
    "\u0313": "0.5,17.5 -0.5,15",  # comma
}
BELOW = {
    "\u0323": "0,-4 0,-3",  # dot
    "\u0324": "-2.5,-4 -2.5,-3|2.5,-4 2.5,-3",  # two dots
    "\u0325": "0,-2.5 -2,-4.5 0,-6.5 2,-4.5 0,-2.5",  # ring
    "\u0326": "0.5,-2.5 -0.5,-5",  # comma
    "\u0327": "0,0 0,-2 2,-3.5 0,-5 -2,-4.5",  # cedilla
    "\u032d": "-3,-5.5 0,-3 3,-5.5",  # circumflex
    "\u032e": "-3,-3 -1.5,-5.5 1.5,-5.5 3,-3",  # breve
    "\u0330": "-3.5,-5 -1.5,-3 1.5,-5 3.5,-3",  # tilde
    "\u0331": "-3,-3.5 3,-3.5",  # macron
}
FOOT = {"\u0328": "0,0 -2,-2.5 -0.5,-4.5 1.5,-4.5"}  # ogonek, at the right foot
HEAD = {"\u031b": "0,10 2.5,12 2.5,15"}  # horn, at the right of the head
BESIDE = {"\u0335": "-3,6 3,6", "\u0338": "-4,-2 4,14"}  # strokes through the letter


Stroke = tuple[tuple[float, float], ...]
APART = 5.0  # of letters side by side, in the grid's twelfths of the cap height
NEXT_ACCENT = 4.0  # of a second accent above, to the right of the first


def has_glyph(character: str) -> bool:
    """Whether the font can draw this character."""
    return strokes_of(character) is not None


def letterable(text: str) -> tuple[str, str]:
    """The text without what the font cannot draw in upper case, blanks run together; and what was left out."""
    composed = text if text.isascii() else unicodedata.normalize("NFC", text)
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
