"""A vessel built in parts, in two halves or in more, for a neck or a waist that no tool and no gauge passes."""

from __future__ import annotations

from geometry.records import dataclass
from jigs.asked.key import key

BETWEEN = (
    "second",
    "third",
    "fourth",
)  # the parts between the lower and the upper one, as many as there may be


@dataclass(frozen=True)
class HalvesWish:
    """Where the parts are joined, each hollowed first."""

    # fmt: off
    ring: tuple[int, ...] | None = key("counts", "the last ring of the lower half, by its number from the foot up; of "
        "more parts a list, the last ring of each but the uppermost. Each is turned inside first, then they are "
        "joined", unset="built in one", example=(5,), least=1, most=200)
    # fmt: on
