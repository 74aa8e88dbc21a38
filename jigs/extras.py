"""What a set holds besides its jigs: the listing, a picture of the plan, the sections on paper."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from jigs.manifest import sha256
from jigs.part import Part
from jigs.plan import Plan
from jigs.words.listing import listing_text
from jigs.writers.svg import write_svg


@dataclass(frozen=True)
class Extra:
    """A file of text; its name is relative to the set, with forward slashes."""

    file: str
    purpose: str
    text: Callable[[Plan, Sequence[Part]], str]


LISTING = Extra("listing.txt", "every setting and caution, and how each jig is used: print it", listing_text)


def _picture(plan: Plan) -> Extra:
    if plan.kind == "vessel":
        from jigs.pictures.stack import stack_picture

        purpose = "the section in its rings: heights, joints, what is turned away"
        return Extra("pictures/stack.svg", purpose, lambda _, parts: stack_picture(plan))
    from jigs.pictures.holding import holding_picture

    purpose = (
        "the holding plan round the tube: what each mounting turns, what holds it there, where they overlap"
    )
    return Extra("pictures/holding.svg", purpose, lambda _, parts: holding_picture(plan))


def write_extras(plan: Plan, parts: Sequence[Part], folder: Path) -> list[dict[str, str]]:
    """Write every extra into a set's folder; return their rows of the manifest: file, purpose, sha256."""
    texts = [
        (extra.file, extra.purpose, extra.text(plan, parts).encode()) for extra in (_picture(plan), LISTING)
    ]
    rows = []
    for name, purpose, content in (*texts, *_sheets(parts)):
        file = folder / name
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(content)
        rows.append({"file": name, "purpose": purpose, "sha256": sha256(content)})
    return rows


def _sheets(parts: Sequence[Part]) -> list[tuple[str, str, bytes]]:
    """The sections of what is turned, at full size on paper, to hold against the work."""
    return [
        (f"paper/{part.name}-full-size.svg", f"{part.purpose}; the section at full size", _sheet(part))
        for part in parts
        if part.process == "turn"
    ]


def _sheet(part: Part) -> bytes:
    stream = io.BytesIO()
    write_svg(part, stream)
    return stream.getvalue()
