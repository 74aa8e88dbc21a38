"""What holds a piece while it is sawn, by statics."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class HeldCut:
    """One piece in one cut."""

    what: str
    held: bool  # against every force of the cut, friction not counted
    gets_away: Literal["slides", "turns", ""]  # how, where it is not
    grip: float  # how often the force along the base is held by pins and friction alone
