"""The parts of a job, as operations ask for them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from jigs.parts.part import Part
from jigs.work.model import JigUse


class Rack:
    """Parts by name and by family."""

    def __init__(self, parts: Sequence[Part]) -> None:
        self.parts = tuple(parts)
        self._by_name = {part.name: part for part in parts}

    def part(self, name: str) -> Part:
        """Raises KeyError for a name that is none."""
        return self._by_name[name]

    def has(self, name: str) -> bool:
        return name in self._by_name

    def named(self, *heads: str) -> list[Part]:
        """Those of these names, and those whose name goes on behind one of them with a hyphen."""
        longer = tuple(f"{head}-" for head in heads)
        return [p for p in self.parts if p.name in heads or p.name.startswith(longer)]

    def of(self, *families: str) -> list[Part]:
        """All of some families."""
        return [part for part in self.parts if part.family in families]


def builds(parts: Iterable[Part], for_what: str = "") -> tuple[JigUse, ...]:
    """Each as the operation that builds it tells it: with how it is made, fitted and glued."""
    return tuple(JigUse(part.name, part.quantity, for_what or part.purpose, part.making) for part in parts)


def made(parts: Iterable[Part], later: Collection[str]) -> tuple[JigUse, ...]:
    """Each as it comes off its machine: with how it is made, unless it is of those that are put together `later`."""
    return tuple(
        use
        for part in parts
        for use in (uses([part]) if part.name in later or part.piece_of else builds([part]))
    )


def uses(parts: Iterable[Part], for_what: str = "", notes: bool = False) -> tuple[JigUse, ...]:
    """Each in its whole quantity; what a part is for is its purpose unless the operation gives another.

    `notes`: whether this is the operation that tells how it is used; what several parts have in common is told once.
    """
    told: set[str] = set()
    found = []
    for part in parts:
        own = tuple(note for note in part.notes if note not in told) if notes else ()
        told.update(own)
        found.append(JigUse(part.name, part.quantity, for_what or part.purpose, own))
    return tuple(found)


class Once:
    """Tells each note where a part that has it is first used, then no more."""

    def __init__(self) -> None:
        self._told: set[str] = set()

    def uses(self, parts: Iterable[Part], for_what: str = "") -> tuple[JigUse, ...]:
        """Each in its whole quantity, in their order."""
        found = tuple(
            replace(use, notes=tuple(note for note in use.notes if note not in self._told))
            for use in uses(parts, for_what, notes=True)
        )
        self._told.update(note for use in found for note in use.notes)
        return found
