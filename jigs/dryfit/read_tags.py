"""A drawing's entities by the tags that ezdxf reads: a whole document of ezdxf takes three times as long."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import pi, tan
from pathlib import Path
from typing import TextIO

import ezdxf
import numpy as np
from ezdxf.lldxf.tagger import ascii_tags_loader
from ezdxf.lldxf.types import DXFTag

from geometry.plane.arcs import FloatArray
from geometry.records import dataclass
from jigs.words.findings import Finding, Refused

KINDS = ("LWPOLYLINE", "CIRCLE")
# group codes, DXF reference
STRUCTURE, NAME, LAYER, SETTING, X, Y, RADIUS, BULGE, PAPER_SPACE, FLAGS, EXTRUSION = (
    0, 2, 8, 9, 10, 20, 40, 42, 67, 70, 230
)  # fmt: skip
OUR_DATA, TEXT = (1001, "JIGS"), 1000
MILLIMETRES = 4  # $INSUNITS, DXF reference
BELOW = "it is drawn as seen from below: another program has mirrored it"

QUARTERS, QUARTER_ARC = np.array(((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))), tan(pi / 8)

Tag = tuple[int, str]


@dataclass(frozen=True, eq=False)
class Entity:
    """A line by its rows (k, 3) of x, y, bulge, or a circle by its one row of x, y, diameter."""

    layer: str
    is_circle: bool
    closed: bool
    name: str  # of a marked line
    rows: FloatArray

    @property
    def loop(self) -> FloatArray:
        """The rows (k, 3) of a closed line; a circle's are four arcs, the same after a quarter turn."""
        if not self.is_circle:
            return self.rows
        x, y, diameter = self.rows[0]
        return np.column_stack([(x, y) + diameter / 2 * QUARTERS, np.full(4, QUARTER_ARC)])


def read_entities(file: Path) -> list[Entity]:
    """Lines and circles of the model space. Raises Refused unless it can be read to its end and is in millimetres."""
    try:
        with file.open("rt", encoding="utf-8", errors="surrogateescape") as stream:
            return _entities(stream)
    except (OSError, ValueError, KeyError, ezdxf.DXFError) as error:  # type: ignore[attr-defined]
        raise unreadable(file, str(error)) from error


def unreadable(file: Path, why: str) -> Refused:
    return Refused([Finding("unreadable", f"{file}: {why}", "make the job again")])


def _entities(stream: TextIO) -> list[Entity]:
    tags = iter(ascii_tags_loader(stream))
    if _unit(tags) != MILLIMETRES:
        raise ValueError("it does not say that it is in millimetres")
    found = [_entity(kind, dict(own), own) for kind, own in _grouped(tags)]
    if stream.read().split()[-1:] != ["EOF"]:
        raise ValueError("it breaks off before its end")
    return [entity for entity in found if entity]


def _unit(tags: Iterator[DXFTag]) -> int:
    """The header's unit, 0 where it has none; the tags are read on to the first entity."""
    unit, setting = 0, ""
    for tag in tags:
        code = tag.code
        if code == SETTING:
            setting = tag.value
        elif code == FLAGS and setting == "$INSUNITS":
            unit, setting = int(tag.value), ""
        elif code == NAME and tag.value == "ENTITIES":
            return unit
    raise ValueError("it has no entities")


def _grouped(tags: Iterable[DXFTag]) -> Iterator[tuple[str, list[Tag]]]:
    """Each line and circle with its tags, up to the section's end."""
    kind, own = "", list[Tag]()
    for tag in tags:
        code = tag.code
        if code == STRUCTURE:
            if kind in KINDS:
                yield kind, own
            kind, own = tag.value, []
            if kind == "ENDSEC":
                return
        elif kind in KINDS:
            own.append((code, tag.value))
    raise ValueError("it breaks off before its end")


def _entity(kind: str, last: dict[int, str], tags: list[Tag]) -> Entity | None:
    """One of the model space, by its tags and the last of each; an empty line is none."""
    if float(last.get(EXTRUSION, 1)) < 0:
        raise ValueError(BELOW)
    rows = np.zeros((sum(code == X for code, _ in tags), 3))
    if not len(rows) or int(last.get(PAPER_SPACE, 0)):
        return None
    rows[:, 0] = [float(value) for code, value in tags if code == X]
    rows[:, 1] = [float(value) for code, value in tags if code == Y]
    if kind == "CIRCLE":
        rows[0, 2] = 2 * float(last[RADIUS])
    elif BULGE in last:
        rows[:, 2] = list(_bulges(tags))
    name = next((b[1] for a, b in pairwise(tags) if a == OUR_DATA and b[0] == TEXT), "")
    closed = kind == "CIRCLE" or bool(int(last.get(FLAGS, 0)) & 1)
    return Entity(last.get(LAYER, "0"), kind == "CIRCLE", closed, name, rows)


def _bulges(tags: Iterable[Tag]) -> Iterator[float]:
    """Of each place of a line the bulge that follows it, 0 where none does."""
    bulge = None
    for code, value in tags:
        if code == X and bulge is not None:
            yield bulge
        if code == X:
            bulge = 0.0
        elif code == BULGE:
            bulge = float(value)
    if bulge is not None:
        yield bulge
