"""Readings that no topic answers: they are named, so that none seems to be forgotten."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from jigs.asked.readings.keys import key_of
from jigs.asked.readings.readings import Entry
from jigs.measured.advice import Advice, listed

TOPIC = "other-readings"


class Watched(dict[str, Entry]):
    """Entries that know which of them was looked at, and which of these had an answer."""

    def __init__(self, entries: Mapping[str, Entry]) -> None:
        super().__init__(entries)
        self._looked_at, self._answered = set[str](), set[str]()

    def get(self, id: str, default: Any = None) -> Any:
        self._looked_at.add(id)
        return super().get(id, default)

    def answering(self, topic: Iterable[Advice]) -> Iterator[Advice]:
        """A topic's advice; what it looks at is answered if it says anything at all."""
        self._looked_at.clear()
        if found := list(topic):
            self._answered |= self._looked_at
        yield from found

    @property
    def unanswered(self) -> list[str]:
        return [id for id in self if id not in self._answered and not key_of(id)]


def others_advice(entries: Watched) -> Iterator[Advice]:
    """One for all of them."""
    if left := entries.unanswered:
        named = listed([_as_typed(*id.split(".")) for id in left])
        says = (
            f"Nothing follows from {named}.",
            "Where one is off its plan and can still be put right, the check at its step says how.",
        )
        yield Advice(TOPIC, TOPIC, "right", (), says)


def _as_typed(*id: str) -> str:
    """Under its operation, or its section of one word."""
    section = id[: min(2, len(id) - 1)]
    return f"{'.'.join(id[len(section) :])} in [{'.'.join(section)}]"
