"""What holds a piece while it is sawn, by statics."""

from __future__ import annotations

from typing import Literal

from geometry.records import Record


class HeldCut(Record):
    """One piece in one cut."""

    what: str
    held: bool  # nothing left free to move, were there no friction and no limit to its pins
    gets_away: Literal["slides", "turns", ""]  # how, where it is not
    grip: float  # how many times the cut's force is held, by friction and by pins as far as wood bears them, or 0
