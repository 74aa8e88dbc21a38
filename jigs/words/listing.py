"""The listing that goes to the workshop: all settings, then how each jig is used."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Sequence

from jigs.part import Part
from jigs.plan import Plan
from jigs.words.report import report_text

COMMON = 3  # jigs that share a note before it is told once for all of them
WIDTH = 100


def listing_text(plan: Plan, parts: Sequence[Part]) -> str:
    """Everything `check` shows, then each jig with its notes."""
    return f"{report_text(plan, parts, ())}\n\n{use_text(parts)}\n"


def use_text(parts: Sequence[Part]) -> str:
    """How each jig is used; what holds for many of them is said once, at the head."""
    counts = Counter(note for part in parts for note in part.notes)
    common = [note for note, count in counts.items() if count > COMMON]
    rows = [_block("For all of them", common)]
    for part in parts:
        head = f"{part.name}, {part.quantity} x {part.process}, {part.material}: {part.purpose}"
        rows.append(_block(head, [note for note in part.notes if note not in common]))
    return "How the jigs are used\n\n" + "\n".join(rows)


def _block(head: str, notes: Sequence[str]) -> str:
    lines = textwrap.wrap(head, WIDTH, initial_indent="  ", subsequent_indent="    ")
    for note in notes:
        lines += textwrap.wrap(note, WIDTH, initial_indent="    - ", subsequent_indent="      ")
    return "\n".join(lines)
