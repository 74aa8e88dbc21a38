"""How operations of one kind are numbered, and what one of them tells at most."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.parts.part import Part

MOST = 16  # kinds of parts told in one step


def nth(number: int) -> str:
    """What an id ends in: nothing for the first of its kind, then "-2", "-3"."""
    return "" if number == 1 else f"-{number}"


def by_page(parts: Sequence[Part]) -> Iterator[tuple[str, Sequence[Part]]]:
    """As many as one step tells, in their order, with what its id ends in."""
    return ((nth(1 + k // MOST), parts[k : k + MOST]) for k in range(0, len(parts), MOST))
