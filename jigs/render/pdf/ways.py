"""How a step or a pinned sheet may be set, from much white to little; book.typ sets it so. Sizes in points."""

from __future__ import annotations

from geometry.records import Record


class Way(Record):
    """Of a step; `across`, `jigs`, `checks` and `reads` are how many stand beside each other."""

    size: float
    value: float  # of a setting's number
    across: int  # settings
    thumbs: bool = True  # jigs with a picture
    jigs: int = 1
    picture: float = 0.0  # of its natural size; without, it has a page of its own
    beside: bool = False  # jigs on the left, the rest on the right
    checks: int = 1
    reads: int = 3
    title: float = 18.0
    leading: float = 0.55  # em
    gap: float = 0.75  # em, between paragraphs


ALONE = (
    Way(13, 34, 2),
    Way(12, 30, 2),
    Way(11, 26, 3, jigs=2),
    Way(10.5, 22, 3, jigs=2),
    Way(10.5, 20, 3, beside=True),
    Way(10, 18, 4, beside=True, title=15),
    Way(10, 16, 4, thumbs=False, beside=True, title=15),
    Way(10, 16, 4, thumbs=False, jigs=2, checks=2, title=15),
    Way(10, 16, 4, thumbs=False, jigs=3, checks=2, title=15),
    Way(10, 14, 4, thumbs=False, jigs=2, checks=2, title=14, leading=0.42, gap=0.42),
    Way(10, 13, 4, thumbs=False, jigs=2, checks=2, title=13, leading=0.36, gap=0.36, reads=4),
)
PICTURED = (  # capitals in the picture no lower than 2.2 mm: WORDS are set in 3.4 mm
    Way(12, 30, 2, picture=1.0),
    Way(11, 26, 3, jigs=2, picture=1.0),
    Way(10.5, 22, 3, jigs=2, picture=0.91),
    Way(10.5, 20, 3, picture=0.91, beside=True),
    Way(10, 18, 4, thumbs=False, jigs=2, checks=2, picture=0.91, title=15),
    Way(10, 16, 4, thumbs=False, jigs=2, checks=2, picture=0.91, title=14, leading=0.42, gap=0.5),
)
# Of steps that share a page, with a picture and without.
SHARED = ((PICTURED[0], ALONE[0]), (PICTURED[0], ALONE[1]), (PICTURED[1], ALONE[2]))


class Pinned(Record):
    """Of all steps on a pinned sheet; 0 `across`: one setting behind the other."""

    value: float
    size: float
    across: int
    room: float  # mm, between two steps


PINNED = (
    Pinned(34, 16, 2, 4),
    Pinned(28, 14, 2, 4),
    Pinned(24, 12, 3, 3),
    Pinned(20, 11, 3, 2.5),
    Pinned(18, 11, 0, 2.5),
    Pinned(16, 10, 0, 2),
    Pinned(14, 10, 0, 1.5),
)
ON_SEVERAL = Pinned(20, 12, 0, 3)
