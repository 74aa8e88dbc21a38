"""What people call a vessel and its places: a lid, upside down on the lathe, has its top where a foot would be."""

from __future__ import annotations

from geometry.records import Record


class Called(Record):
    """The usual words, small letters."""

    whole: str
    foot: str  # what lies towards the waste block
    mouth: str  # what is open at the other end
    floor: str


VESSEL = Called("vessel", "foot", "mouth", "floor")
LID = Called("lid", "top", "hollow", "top")
