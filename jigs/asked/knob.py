"""A lid's knob, turned on its own and glued into the lid's top."""

from __future__ import annotations

from typing import TYPE_CHECKING

from geometry.records import dataclass
from jigs.asked.key import key

if TYPE_CHECKING:
    from jigs.asked.vessel_job import Shape


# fmt: off
@dataclass(frozen=True, kw_only=True, eq=False)
class KnobWish:
    """The knob: its outside, from the lid's top (height 0) up, and the tenon under it."""

    shape: Shape
    tenon_diameter: float = key("length", "of its tenon, and of the hole in the lid: a bit that you have", 10.0,
        inch_default=9.525, least=4, most=60)
    tenon_length: float = key("length", "of its tenon", 6.0, inch_default=6.35, least=3, most=60)
    species: str | None = key("text", "of the knob, its grain along the axis", unset="the lid's lowest ring's first",
        example="walnut", most=40)
# fmt: on
