"""Tables for people."""

from __future__ import annotations

from collections.abc import Sequence


def table(rows: Sequence[tuple[str, ...]], gap: int = 2) -> list[str]:
    """Rows as lines, columns lined up."""
    if not rows:
        return []
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    pad = " " * gap
    return ["  " + pad.join(c.ljust(w) for c, w in zip(row, widths, strict=True)).rstrip() for row in rows]
