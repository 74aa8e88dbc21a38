"""What the report is made of: titled rows of numbers and words, with their cautions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["length", "angle", "count", "volume", "area", "ratio", "text"]


@dataclass(frozen=True)
class Row:
    """One number or word: lengths in mm, angles in degrees, volumes in mm3, areas in mm2."""

    name: str
    value: float | int | str
    kind: Kind = "length"


@dataclass(frozen=True)
class Section:
    title: str
    rows: tuple[Row, ...]
    cautions: tuple[str, ...] = ()
