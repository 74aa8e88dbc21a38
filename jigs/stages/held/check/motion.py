"""How a piece that is not held gets away, in words."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from geometry.statics.contacts import Vector
from geometry.statics.holding import Holding
from jigs.words.forces import force_text
from jigs.words.lengths import Unit

_PART = 0.5  # of a motion that is worth a word


def told(holding: Holding, ways: Mapping[str, Vector], unit: Unit = "mm") -> str:
    """What moves the piece and how, as the end of "the piece ...". `ways` are directions by what they are called."""
    if holding.worst is None:
        return f"is moved by its clamps alone: it {_moves(holding, ways)}"
    return (
        f"is held against {force_text(holding.strength, unit)}, and the saw may push with "
        f"{force_text(holding.force, unit)}: "
        f"{holding.worst.what}, it {_moves(holding, ways)}"
    )


def _moves(holding: Holding, ways: Mapping[str, Vector]) -> str:
    motion = holding.motion
    if motion is None:
        return "moves"
    if motion.kind == "slides":
        return f"slides {_way(motion.direction, ways)}"
    if holding.worst is None:
        return "turns"
    return f"turns, and goes {_way(motion.at(holding.worst.place), ways)} there"


def _way(direction: Vector, ways: Mapping[str, Vector]) -> str:
    """The one or two named ways that a direction goes most."""
    unit = np.array(direction) / max(1e-12, float(np.linalg.norm(direction)))
    shares = sorted(((float(unit @ np.array(way)), name) for name, way in ways.items()), reverse=True)
    return " and ".join(name for share, name in shares[:2] if share > _PART) or shares[0][1]
