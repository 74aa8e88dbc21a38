"""A whole sheet's DXF by the tags that ezdxf reads: a sheet has thousands of lines, of which few keys are needed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import ezdxf
import numpy as np
from ezdxf.lldxf.tagger import ascii_tags_loader
from ezdxf.lldxf.types import DXFTag

from geometry.arcs import FloatArray
from jigs.dryfit.read_dxf import BELOW, check_unit, unreadable

KINDS = ("LWPOLYLINE", "CIRCLE")
NAME, LAYER, FLAGS, X, Y, RADIUS, BULGE, EXTRUSION = (
    0,
    8,
    70,
    10,
    20,
    40,
    42,
    230,
)  # group codes, DXF reference


@dataclass(frozen=True, eq=False)
class Entities:
    """What is cut, drilled and engraved: contours (k, 3) of x, y, bulge; circles (n, 3) of x, y, diameter; lines."""

    closed: list[FloatArray]
    drills: FloatArray
    engraved: list[FloatArray]


def read_sheet(file: Path) -> Entities:
    """All entities of a sheet. Raises Refused where it cannot be read or is not in millimetres."""
    try:
        with file.open("rt", encoding="utf-8", errors="surrogateescape") as stream:
            return _entities(file, ascii_tags_loader(stream))
    except (OSError, ValueError, ezdxf.DXFError) as error:  # type: ignore[attr-defined]
        raise unreadable(file, str(error)) from error


def _entities(file: Path, tags: Iterable[DXFTag]) -> Entities:
    closed, drills, engraved = list[FloatArray](), list[tuple[float, float, float]](), list[FloatArray]()
    unit, setting = 0, ""
    kind, layer, flags, rows = "", "", 0, list[list[float]]()

    def end() -> None:
        if kind == "CIRCLE" and layer == "drill":
            drills.append((rows[0][0], rows[0][1], 2 * rows[0][2]))
        elif kind == "LWPOLYLINE" and rows:
            if layer == "cut" and flags & 1:
                closed.append(np.array(rows))
            elif layer == "engrave":
                engraved.append(np.array(rows))

    for code, value in tags:
        if code == NAME:
            end()
            kind, layer, flags, rows = value, "", 0, []
        elif code == 9:
            setting = value
        elif code == FLAGS and setting == "$INSUNITS":
            unit, setting = int(value), ""
        elif kind in KINDS:
            if code == LAYER:
                layer = value
            elif code == FLAGS:
                flags = int(value)
            elif code == X:
                rows.append([float(value), 0.0, 0.0])
            elif code == Y:
                rows[-1][1] = float(value)
            elif code == EXTRUSION and float(value) < 0:
                raise ValueError(BELOW)
            elif code in (RADIUS, BULGE) and rows:
                rows[-1][2] = float(value)
    end()
    check_unit(file, unit)
    return Entities(closed, np.array(drills).reshape(-1, 3), engraved)
