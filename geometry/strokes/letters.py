"""Which strokes draw a character: a glyph of its own, one that looks like it, or letters and accents put together.

Glyphs are drawn for this project on a grid of twelfths of the cap height.

Each glyph is one string: strokes separated by "|", points by blanks, a point as "x,y". The base line is y = 0
and the cap height y = 12; lines are straight, round letters have cut corners. Drawn so that at a cap height
of 4 mm and a stroke of 0.8 mm the openings stay about 0.9 mm wide: open 4, flat-topped 3, narrow 0, wide O.
"""

from __future__ import annotations

import unicodedata
from functools import cache

GRID = 12

GLYPHS: dict[str, str] = {
    " ": "",
    "A": "0,0 0,9 3,12 5,12 8,9 8,0|0,5 8,5",
    "B": "0,6 5,6 7,8 7,10 5,12 0,12 0,0 6,0 8,2 8,4 6,6 5,6",
    "C": "8,9 6,12 3,12 0,9 0,3 3,0 6,0 8,3",
    "D": "0,0 0,12 4,12 8,8 8,4 4,0 0,0",
    "E": "7,12 0,12 0,0 7,0|0,6 6,6",
    "F": "7,12 0,12 0,0|0,6 6,6",
    "G": "8,10 6,12 3,12 0,9 0,3 3,0 6,0 8,2 8,5 5,5",
    "H": "0,0 0,12|8,0 8,12|0,6 8,6",
    "I": "0,0 0,12",
    "J": "6,12 6,3 4,0 2,0 0,3",
    "K": "0,0 0,12|8,12 0,4|3,7 8,0",
    "L": "0,12 0,0 7,0",
    "M": "0,0 0,12 5,4 10,12 10,0",
    "N": "0,0 0,12 8,0 8,12",
    "O": "3,0 0,3 0,9 3,12 7,12 10,9 10,3 7,0 3,0",
    "P": "0,0 0,12 6,12 8,10 8,7 6,5 0,5",
    "Q": "3,0 0,3 0,9 3,12 7,12 10,9 10,3 7,0 3,0|6,4 11,-1",
    "R": "0,0 0,12 6,12 8,10 8,7 6,5 0,5|4,5 8,0",
    "S": "8,9 6,12 2,12 0,10 0,8 2,6 6,6 8,4 8,2 6,0 2,0 0,3",
    "T": "0,12 8,12|4,12 4,0",
    "U": "0,12 0,3 3,0 5,0 8,3 8,12",
    "V": "0,12 4,0 8,12",
    "W": "0,12 2,0 6,8 10,0 12,12",
    "X": "0,0 8,12|0,12 8,0",
    "Y": "0,12 4,6 8,12|4,6 4,0",
    "Z": "0,12 8,12 0,0 8,0",
    "0": "2,0 0,2 0,10 2,12 4,12 6,10 6,2 4,0 2,0",
    "1": "0,9 3,12 3,0|0,0 6,0",
    "2": "0,10 2,12 5,12 7,10 7,8 0,0 7,0",
    "3": "0,12 7,12 3,7 5,7 7,5 7,2 5,0 2,0 0,2",
    "4": "1,12 0,4 8,4|6,8 6,0",
    "5": "7,12 0,12 0,7 5,7 7,5 7,2 5,0 2,0 0,2",
    "6": "6,12 4,12 0,7 0,2 2,0 5,0 7,2 7,5 5,7 0,7",
    "7": "0,12 7,12 2,0",
    "8": "2,6 0,8 0,10 2,12 5,12 7,10 7,8 5,6 2,6 0,4 0,2 2,0 5,0 7,2 7,4 5,6",
    "9": "1,0 3,0 7,5 7,10 5,12 2,12 0,10 0,7 2,5 7,5",
    ".": "0,0 1,0 1,1 0,1 0,0",
    ",": "1,1 0,-2",
    ":": "0,2 0,3|0,8 0,9",
    ";": "1,2 0,-1|1,8 1,9",
    "-": "0,6 6,6",
    "+": "0,6 8,6|4,2 4,10",
    "/": "0,-1 7,13",
    "(": "3,14 0,10 0,2 3,-2",
    ")": "0,14 3,10 3,2 0,-2",
    "=": "0,3.5 7,3.5|0,8.5 7,8.5",
    "'": "0,12 0,9",
    '"': "0,12 0,9|4,12 4,9",
    "°": "1.5,8 0,9.5 0,11.5 1.5,13 3.5,13 5,11.5 5,9.5 3.5,8 1.5,8",
    "Ø": "4,0 1,3 1,9 4,12 8,12 11,9 11,3 8,0 4,0|0,-2 12,14",
    "×": "0,2 7,9|0,9 7,2",
    "±": "0,8.5 8,8.5|4,5 4,12|0,0 8,0",
    "%": "1.5,7 0,8.5 0,10.5 1.5,12 3.5,12 5,10.5 5,8.5 3.5,7 1.5,7|4,0 12,12"
    "|12.5,0 11,1.5 11,3.5 12.5,5 14.5,5 16,3.5 16,1.5 14.5,0 12.5,0",
    "<": "8,11 0,6 8,1",
    ">": "0,11 8,6 0,1",
    "!": "0,12 0,6|0,0 0,1",
    "?": "0,10 2,12 5,12 7,10 7,8 4,6 4,5|4,0 4,1",
    "&": "10,0 1,8.5 1,10 3,12 5,12 7,10 7,8.5 0,4 0,2 2,0 5,0 10,5",
    "#": "2,0 3,12|8,0 9,12|0,3.5 11,3.5|0,8.5 11,8.5",
    "_": "0,0 8,0",
    "→": "0,6 12,6|8,10 12,6 8,2",
    "←": "12,6 0,6|4,10 0,6 4,2",
    "↑": "4,0 4,12|0,8 4,12 8,8",
    "↓": "4,12 4,0|0,4 4,0 8,4",
    "[": "3,14 0,14 0,-2 3,-2",
    "]": "0,14 3,14 3,-2 0,-2",
    "*": "3,12 3,6|0,10.5 6,7.5|0,7.5 6,10.5",
    "|": "0,14 0,-2",
    "\\": "0,13 7,-1",
    "·": "0,5.5 0,6.5",
    "–": "0,6 9,6",
    "Æ": "0,0 6,12 13,12|6,12 6,0 13,0|6,6 12,6|2.5,5 6,5",
    "Ð": "2,0 2,12 6,12 10,8 10,4 6,0 2,0|0,6 6,6",
    "Ħ": "1,0 1,12|9,0 9,12|1,5 9,5|0,9 10,9",
    "Ł": "2,12 2,0 9,0|0,4 5,8",
    "Ŋ": "0,0 0,12 8,0|8,12 8,-1 6,-3 4,-3",
    "Œ": "14,12 3,12 0,9 0,3 3,0 14,0|8,12 8,0|8,6 13,6",
    "Þ": "0,0 0,12|0,9 6,9 8,7 8,5 6,3 0,3",
    "Ŧ": "0,12 8,12|4,12 4,0|1.5,6 6.5,6",
    "Ə": "0,9 2,12 6,12 8,9 8,3 6,0 2,0 0,3 0,6 8,6",
    "ẞ": "0,0 0,9 3,12 7,12 4,7.5 6,7.5 8,5.5 8,2 6,0 3,0",
    "Γ": "0,0 0,12 7,12",
    "Δ": "0,0 5,12 10,0 0,0",
    "Θ": "3,0 0,3 0,9 3,12 7,12 10,9 10,3 7,0 3,0|3.5,6 6.5,6",
    "Λ": "0,0 4,12 8,0",
    "Ξ": "0,12 8,12|1.5,6 6.5,6|0,0 8,0",
    "Π": "0,0 0,12 8,12 8,0",
    "Σ": "7,12 0,12 4,6 0,0 7,0",
    "Φ": "5,0 5,12|3,2.5 0,4.5 0,7.5 3,9.5 7,9.5 10,7.5 10,4.5 7,2.5 3,2.5",
    "Ψ": "0,12 0,7 3,4 7,4 10,7 10,12|5,12 5,0",
    "Ω": "0,0 3,0 3,2 0,5 0,9 3,12 7,12 10,9 10,5 7,2 7,0 10,0",
    "Б": "7,12 0,12 0,0 6,0 8,2 8,5 6,7 0,7",
    "Д": "0,-2 0,0 9,0 9,-2|1.5,0 4,12 7.5,12 7.5,0",
    "Ж": "6,0 6,12|0,12 6,6 0,0|12,12 6,6 12,0",
    "И": "0,12 0,0 8,12 8,0",
    "Л": "0,0 1.5,0 3,12 8,12 8,0",
    "У": "8,12 2,0 0,0|0,12 4.5,5",
    "Ц": "0,12 0,0 9,0 9,-2|7.5,12 7.5,0",
    "Ч": "0,12 0,7 2,5 8,5|8,12 8,0",
    "Ш": "0,12 0,0 12,0 12,12|6,12 6,0",
    "Щ": "0,12 0,0 13.5,0 13.5,-2|6,12 6,0|12,12 12,0",
    "Ъ": "0,12 3,12 3,0 8,0 10,2 10,5 8,7 3,7",
    "Ы": "0,12 0,0 5,0 7,2 7,5 5,7 0,7|11,12 11,0",
    "Ь": "0,12 0,0 6,0 8,2 8,5 6,7 0,7",
    "Э": "0,9 2,12 5,12 8,9 8,3 5,0 2,0 0,3|3,6 8,6",
    "Ю": "0,0 0,12|0,6 3,6|6,0 3,3 3,9 6,12 9,12 12,9 12,3 9,0 6,0",
    "Я": "8,0 8,12 2,12 0,10 0,7 2,5 8,5|4,5 0,0",
    "Є": "8,9 6,12 3,12 0,9 0,3 3,0 6,0 8,3|0,6 5,6",
    "Ґ": "0,0 0,12 7,12 7,14.5",
}

# Other alphabets' letters, signs and kinds of quotes, each drawn as the glyph it looks like.
LOOKS_LIKE: dict[str, str] = {
    **dict(zip("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "ABEZHIKMNOPTYX", strict=True)),
    **dict(zip("АВГЕЗКМНОПРСТФХІЈЅ", "ABΓE3KMHOΠPCTΦXIJS", strict=True)),
    **dict(zip("ĐĸŁ’‘ʼ“”„«»—⁄−•", "ÐKŁ'''\"\"\"<>–/–·", strict=True)),
}


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


def letterable(text: str) -> tuple[str, str]:
    """The text without what the font cannot draw in upper case, blanks run together; and what was left out."""
    composed = text if text.isascii() else unicodedata.normalize("NFC", text)
    missing = [one for one in composed if any(strokes_of(upper) is None for upper in one.upper())]
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
