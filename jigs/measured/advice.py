"""What a topic's readings come to, in one form for all topics."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees
from typing import Literal

from geometry.measuring.estimate import Estimate
from geometry.records import Record
from jigs.words.lengths import MM_PER_INCH, Unit, inch_decimals, show_length, within
from jigs.words.quantity import Quantity

# right: out by no more than the readings' accuracy, nothing to do. correct: do what it says. unclear: readings
# contradict each other, measure again. short: the wood does not hold the plan any more.
Verdict = Literal["right", "correct", "unclear", "short"]

NOTHING = 0.005  # mm: less is shown as 0.00
LEAST_LEAF = 0.05  # mm: thinnest feeler leaf of most sets, or thin paper. Common practice, no source


class Advice(Record):
    """One thing to do, or to leave. `id` never changes; sentences may."""

    id: str
    topic: str
    verdict: Verdict
    found: tuple[Quantity, ...]
    says: tuple[str, ...]


class Words(Record):
    """Numbers as the tellings of readings show them."""

    unit: Unit

    def fine(self, mm: float) -> str:
        """By calliper, feeler or dial: 0.01 mm, 0.001 in."""
        return f"{mm:.2f} mm" if self.unit == "mm" else f"{inch_decimals(mm / MM_PER_INCH)} in"

    @property
    def least(self) -> float:
        """What is less shows as nothing, mm."""
        return NOTHING if self.unit == "mm" else MM_PER_INCH / 2000

    def comes_off(self, mm: float) -> str:
        return "nothing" if abs(mm) < self.least else self.fine(mm)

    def limit(self, mm: float) -> float:
        """A limit as `fine` shows it, and a hair more: a reading that shows the same is within it."""
        return within(mm, 0.01 if self.unit == "mm" else MM_PER_INCH / 1000, "") + 1e-6

    def rule(self, mm: float) -> str:
        return f"{mm:.1f} mm" if self.unit == "mm" else show_length(mm, "in")

    def angle(self, radians: float) -> str:
        """To 0.01°, or what is less to 0.001°."""
        shown = degrees(radians)
        return f"{shown:.3f}°" if 0 < abs(shown) < 0.01 else f"{shown:.2f}°"

    def within(self, mm: Estimate) -> str:
        """ "0.81 mm, give or take 0.03 mm" """
        return f"{self.fine(mm.value)}, give or take {self.fine(mm.accuracy)}"

    def angle_within(self, radians: Estimate) -> str:
        return f"{self.angle(radians.value)}, give or take {self.angle(radians.accuracy)}"


def estimated(
    id: str, label: str, of: Estimate, kind: Literal["calliper", "angle"] = "calliper"
) -> tuple[Quantity, ...]:
    """A measured value and how far it may be out."""
    return (
        Quantity(id, label, of.value, kind),
        Quantity(f"{id}.accuracy", "give or take", of.accuracy, kind),
    )


def sentences(*parts: str) -> tuple[str, ...]:
    """Those that say something."""
    return tuple(part for part in parts if part)


def listed(items: Sequence[object]) -> str:
    """ "2, 5 and 7" """
    texts = [str(item) for item in items]
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} and {texts[-1]}"
