"""A whole sheet's DXF."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from geometry.plane.arcs import FloatArray
from geometry.records import dataclass
from jigs.dryfit.read_tags import read_entities


@dataclass(frozen=True, eq=False)
class Entities:
    """What is cut, drilled and engraved: contours (k, 3) of x, y, bulge; circles (n, 3) of x, y, diameter; lines."""

    closed: list[FloatArray]
    drills: FloatArray
    engraved: list[FloatArray]


def read_sheet(file: Path) -> Entities:
    """All entities of a sheet. Raises Refused where it cannot be read or is not in millimetres."""
    entities = read_entities(file)
    lines = [entity for entity in entities if not entity.is_circle]
    circles = [entity.rows for entity in entities if entity.is_circle and entity.layer == "drill"]
    return Entities(
        [entity.loop for entity in entities if entity.layer == "cut" and entity.closed],
        np.concatenate([np.zeros((0, 3)), *circles]),
        [line.rows for line in lines if line.layer == "engrave"],
    )
