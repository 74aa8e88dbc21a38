"""What acts on a piece: what touches it, what pins and presses it, what cuts it."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.records import Record

Vector = tuple[float, float, float]


class Contact(Record):
    """Where something that does not give touches the piece; `normal` points into the piece.

    `body` is which piece, where several hold each other: 0 is the one that clamps and cut act on. `on` is the piece
    that touches it there, and is pushed back; None for what stands fast.
    """

    place: Vector
    normal: Vector
    what: str = ""
    friction: float | None = None  # its own, where friction is counted
    body: int = 0
    on: int | None = None


class Pin(Record):
    """A point in the wood: it pushes any way along the base, with `most` at the most."""

    place: Vector
    most: float


class Clamp(Record):
    """Presses the piece at `place` along `direction`, never with less than `force`.

    One that gives (a spring, a hand, a plug that may slip) never presses with more either; one that does not (a
    screw, a toggle past its middle) takes whatever a contact would take.
    """

    place: Vector
    direction: Vector
    force: float
    what: str = ""
    gives: bool = True
    friction: float | None = None  # its own, where friction is counted
    rubs: float | None = None  # of its force, what is not borne by pins beside it; None: all


class Load(Record):
    """A force of the cut: where it acts, and which way, as long as its share of the cutting force.

    `also` acts at the same time, in proportion: the piece's own weight.
    """

    place: Vector
    direction: Vector
    what: str = ""
    also: tuple[Vector, Vector] | None = None  # its place and its direction, as long as its share


def patch(
    corners: Sequence[Vector], normal: Vector, what: str = "", body: int = 0, on: int | None = None
) -> tuple[Contact, ...]:
    """A flat face that touches the piece, by its corners."""
    return tuple(Contact(corner, normal, what, body=body, on=on) for corner in corners)
