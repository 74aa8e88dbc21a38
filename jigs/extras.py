"""What a set holds besides its jigs: the listing, and pictures of how they are used."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from jigs.manifest import sha256
from jigs.part import Part
from jigs.pictures.holding import holding_picture
from jigs.plan import Plan
from jigs.words.listing import listing_text


@dataclass(frozen=True)
class Extra:
    """A file of text; its name is relative to the set, with forward slashes."""

    file: str
    purpose: str
    text: Callable[[Plan, Sequence[Part]], str]


EXTRAS: tuple[Extra, ...] = (
    Extra(
        "pictures/holding.svg",
        "the holding plan round the tube: what each mounting turns, what holds it there, where they overlap",
        lambda plan, parts: holding_picture(plan),
    ),
    Extra("listing.txt", "every setting and caution, and how each jig is used: print it", listing_text),
)


def write_extras(plan: Plan, parts: Sequence[Part], folder: Path) -> list[dict[str, str]]:
    """Write every extra into a set's folder; return their rows of the manifest: file, purpose, sha256."""
    rows = []
    for extra in EXTRAS:
        content, file = extra.text(plan, parts).encode(), folder / extra.file
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(content)
        rows.append({"file": extra.file, "purpose": extra.purpose, "sha256": sha256(content)})
    return rows
