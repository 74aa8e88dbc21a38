"""How wide words are in Noto Sans, and how many lines they fill; lengths in points.

Kerning is left out: it makes a text a little shorter, so that the lines found here are never too few.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

CAPITAL = 0.714  # em: the height of a line
SPACE = 0.26  # em
# Thousandths of an em, from the space to ~, in the order of ASCII; a test reads them back from the fonts.
_REGULAR = """
260 269 408 646 572 831 732 225 300 300 551 572 268 322 268 372 572 572 572 572 572 572 572 572 572 572 268 268 572
572 572 434 899 639 650 632 730 556 519 728 741 339 273 619 524 907 760 781 605 781 622 549 556 731 600 930 586 566
572 329 372 329 572 444 281 561 615 480 615 564 344 615 618 258 258 534 258 935 618 605 615 615 413 479 361 618 508
786 529 510 470 380 551 380 572"""
_BOLD = """
260 286 472 646 572 901 750 266 339 339 545 572 285 322 285 413 572 572 572 572 572 572 572 572 572 572 285 285 572
572 572 477 897 690 672 637 740 560 549 724 765 389 331 664 565 943 813 796 628 796 660 551 579 756 650 967 667 624
579 331 413 331 572 411 362 604 633 514 633 591 387 633 657 305 305 620 305 982 657 619 633 633 454 497 434 657 569
856 578 569 488 394 551 394 572"""
_MORE = {"\u00a0": 260, "°": 428, "×": 572, "–": 500, "·": 285, "±": 572, "²": 367, "³": 367}
OTHER = 0.9  # em, of any other: few are wider


def _advances(told: str) -> dict[str, float]:
    ascii = {chr(k): int(width) for k, width in enumerate(told.split(), 32)}
    return {letter: width / 1000 for letter, width in (_MORE | ascii).items()}


ADVANCES = (_advances(_REGULAR), _advances(_BOLD))
_AFTER = re.compile(r"(?<=[^\W\d_][-–/])(?=[^\W\d_])| ")
Word = tuple[float, float]  # its width and that of the space after it


@lru_cache(10_000)
def _words(text: str, bold: bool) -> tuple[Word, ...]:
    """In em; a word may end behind a hyphen."""
    ends = [*(match.span() for match in _AFTER.finditer(text)), (len(text), len(text))]
    advances, words, start = ADVANCES[bold], [], 0
    for end, following in ends:
        width = sum([advances.get(letter, OTHER) for letter in text[start:end]])
        words.append((width, SPACE if following > end else 0.0))
        start = following
    return tuple(words)


def words(text: str, size: float, bold: bool = False) -> list[Word]:
    return [(width * size, space * size) for width, space in _words(text, bold)]


def width(text: str, size: float, bold: bool = False) -> float:
    return size * _width(text, bold)


@lru_cache(10_000)
def _width(text: str, bold: bool) -> float:
    return sum([width + space for width, space in _words(text, bold)])


def filled(row: Iterable[Word], room: float, taken: float = 0.0) -> int:
    """How many lines words fill, of which the first has `taken` by something before."""
    count, x = 1, taken
    for width, space in row:
        if x and x + width > room:
            count, x = count + 1, 0.0
        x += width + space
    return count


def lines(text: str, size: float, room: float, bold: bool = False, taken: float = 0.0) -> int:
    """How many lines a text fills in a column."""
    return 1 if width(text, size, bold) + taken <= room else filled(words(text, size, bold), room, taken)
