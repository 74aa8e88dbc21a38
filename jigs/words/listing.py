"""The listing that goes to the workshop: all settings, then how each jig is used."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from itertools import groupby, takewhile

from jigs.part import Part
from jigs.plan import Plan
from jigs.words.report import report_text, section_text
from jigs.words.sections import Section

WIDTH = 100
HEADINGS = {
    "coupon": "Coupon that measures the machine",
    "gauges": "Profile gauges",
    "sizes": "Sizes",
    "angles": "Angle plates and wedges",
    "sled": "Sled for wedge rings",
    "segments": "Cutting segments",
    "truing": "Truing",
    "clamping": "Clamping blocks",
    "glue_up": "Glue-up boards",
    "centring": "Centring plates",
    "standing": "Standing gauges and flats gauge",
    "mountings": "First board and braces",
    "holding": "Holding the work on the lathe",
    "layup": "Patterned layup",
}  # by family


def listing_text(plan: Plan, parts: Sequence[Part], more: Sequence[Section] = ()) -> str:
    """Everything `check` shows, what else there is to say, then each jig with its notes."""
    told = [section_text(section, plan.job.unit) for section in more]
    return "\n\n".join([report_text(plan, parts, ()), *told, use_text(parts)]) + "\n"


def use_text(parts: Sequence[Part]) -> str:
    """How each jig is used, by family; a note of two or more of a family's jigs is told once, for these by name."""
    families = dict.fromkeys(part.family for part in parts)
    blocks = [_family(family, [part for part in parts if part.family == family]) for family in families]
    return "\n\n".join(["How the jigs are used", *blocks])


def _family(family: str, parts: Sequence[Part]) -> str:
    shared: dict[tuple[str, ...], list[str]] = {}
    said = {part.name: (*part.making, *part.notes) for part in parts}
    for note in dict.fromkeys(note for notes in said.values() for note in notes):
        shared.setdefault(tuple(name for name, notes in said.items() if note in notes), []).append(note)
    rows = [HEADINGS[family]]
    for names, notes in sorted(shared.items(), key=lambda item: -len(item[0])):
        if len(names) > 1:
            rows += _block(f"{_these(names, len(parts))}:", notes)
    for part in parts:
        head = f"{part.code} {part.name}, {part.quantity} x {part.process}, {part.material}: {part.purpose}"
        rows += _block(head, shared.get((part.name,), ()))
    return "\n".join(rows)


def _these(names: Sequence[str], of: int) -> str:
    if len(names) == of:
        return "all of these"
    return ", ".join(shortened(list(run)) for _, run in groupby(names, lambda name: name.split("-")[0]))


def shortened(names: Sequence[str]) -> str:
    """ "board-1, -2, -3": after the first name, only what follows the words that all of them begin with."""
    first, *rest = names
    columns = zip(*(name.split("-") for name in names), strict=False)
    head = len("-".join(words[0] for words in takewhile(lambda words: len(set(words)) == 1, columns)))
    return ", ".join([first, *(name[head:] for name in rest)])


def _block(head: str, notes: Sequence[str]) -> list[str]:
    lines = textwrap.wrap(head, WIDTH, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)
    for note in notes:
        lines += textwrap.wrap(note, WIDTH, initial_indent="    - ", subsequent_indent="      ")
    return lines
