"""How a picture names things and numbers: parts by their code, quantities as the job's unit shows them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal, TypeAlias

from jigs.figures.items import Callout, Point
from jigs.parts.codes import code_of
from jigs.parts.part import Part
from jigs.words.lengths import Bound
from jigs.words.quantity import Quantity, calliper, ruled

Show: TypeAlias = Callable[[Quantity], str]


def named(what: str, *parts: str) -> str:
    """A thing with the codes of the parts that it is made of: "fence SF"."""
    return " ".join([what, *(code_of(part) for part in parts)])


def labelled(what: str, part: str, to: Point, side: Literal["", "left", "right"] = "") -> Callout:
    """Words beside the drawing for a part, with its code and a line to it."""
    return Callout(named(what, part), to, side)


def pieces_of(parts: Mapping[str, Part], name: str) -> list[Part]:
    """A part, or the pieces that it is joined from, each where it lies in the whole."""
    return [part for part in parts.values() if name in (part.name, part.piece_of)]


def by_calliper(show: Show, mm: float, bound: Bound = "") -> str:
    """As a calliper measures it."""
    return show(calliper("", "", mm, bound))


def by_rule(show: Show, mm: float, bound: Bound = "") -> str:
    """As a rule tells it."""
    return show(ruled("", "", mm, bound)).split(" (")[0]


def angle(show: Show, radians: float) -> str:
    """As a plate or a table of settings says it."""
    return show(Quantity("", "", radians, "angle"))
