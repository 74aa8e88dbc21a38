"""A shop book as data: every word and number that it shows, as people read them."""

from __future__ import annotations

from geometry.records import Record
from jigs.asked.readings.readings import Least

MANY = 12  # jigs of a step; more are shown by code and name alone


class Line(Record):
    """A number with its name."""

    label: str
    value: str


class Jig(Record):
    code: str
    name: str
    count: int
    for_what: str
    notes: tuple[str, ...]
    picture: str  # id, or nothing


class Proof(Record):
    """How to know that a step is right."""

    how: str
    sizes: tuple[Line, ...]
    if_not: str


class Box(Record):
    """Room for readings, `count` of them."""

    id: str
    label: str
    planned: str
    count: int
    least: Least


class Step(Record):
    id: str
    number: int
    does: str
    place: str
    made: tuple[str, ...]  # what comes of it, how long it takes
    how: tuple[str, ...]
    settings: tuple[Line, ...]
    known: tuple[Line, ...]
    jigs: tuple[Jig, ...]
    trial: str
    checks: tuple[Proof, ...]
    cautions: tuple[str, ...]  # that its stage meets here first at this place
    reminder: str  # where the others stand, that hold here too
    readings: tuple[Box, ...]
    picture: str  # id, or nothing
    drawings: tuple[str, ...]  # ids, of the parts that are made in it


class Chapter(Record):
    """A stage of the work."""

    id: str
    title: str
    steps: tuple[Step, ...]


class Sheet(Record):
    """What hangs at one machine: every step there that sets something, in order."""

    place: str
    cautions: tuple[str, ...]
    steps: tuple[Step, ...]


class Listed(Record):
    """Goods of a group."""

    title: str
    rows: tuple[Line, ...]


class Reference(Record):
    """A table of reference. What has many columns is shown row by row."""

    id: str
    title: str
    columns: tuple[str, ...]  # nothing where its rows are names and values
    rows: tuple[tuple[str, ...], ...]
    pictures: tuple[str, ...]  # ids
    by_row: bool
    own_page: bool


class Racked(Record):
    """A jig as the rack lists it."""

    code: str
    name: str
    how_many: str
    size: str
    purpose: str
    picture: str


class Book(Record):
    job: str
    title: str
    verdict: str
    picture: str  # of the finished work
    facts: tuple[Line, ...]
    assumed: tuple[Line, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]  # the standing ones
    chapters: tuple[Chapter, ...]
    sheets: tuple[Sheet, ...]
    goods: tuple[Listed, ...]
    tables: tuple[Reference, ...]
    rack: tuple[Racked, ...]
