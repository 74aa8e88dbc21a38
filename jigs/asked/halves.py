"""A vessel built in two halves, for a neck that no tool and no gauge passes."""

from __future__ import annotations

from geometry.records import dataclass
from jigs.asked.key import key


@dataclass(frozen=True)
class HalvesWish:
    """Where the two are joined, each hollowed first."""

    # fmt: off
    ring: int | None = key("count", "the last ring of the lower half, by its number from the foot up; each half is "
        "turned inside first, then they are joined", unset="built in one", example=5, least=1, most=200)
    # fmt: on
