"""Vessel job files by a plain random number generator: shapes that turners make, and some that nobody does."""

from __future__ import annotations

from itertools import pairwise
from math import dist
from random import Random

from tests.sweep.tables import Tables, chance, tenth
from tests.sweep.torus_jobs import layup

Rows = list[list[float]]
WOODS = ("maple", "walnut", "ash", "cherry")


def _vase(rng: Random) -> Rows:
    high, wide = tenth(rng, 90, 260), tenth(rng, 90, 300)
    belly = rng.uniform(0.35, 0.75)
    foot, neck, lip = (wide * rng.uniform(*span) for span in ((0.3, 0.7), (0.3, 0.8), (0.35, 0.9)))
    return [[0.0, foot], [high * belly, wide], [high * rng.uniform(0.82, 0.92), neck], [high, lip]]


def _necked(rng: Random) -> Rows:
    """A bottle: the mouth much narrower than the belly."""
    high, wide = tenth(rng, 120, 280), tenth(rng, 90, 200)
    neck = max(30.0, wide * rng.uniform(0.25, 0.5))
    rows = [[0.0, wide * 0.7], [high * 0.3, wide], [high * 0.55, wide * 0.9], [high * 0.75, neck]]
    return [*rows, [high, neck * rng.uniform(1.0, 1.25)]]


def _bowl(rng: Random) -> Rows:
    """Short and flaring."""
    high, wide = tenth(rng, 25, 110), tenth(rng, 120, 380)
    foot = wide * rng.uniform(0.3, 0.6)
    return [[0.0, foot], [high * rng.uniform(0.3, 0.6), (foot + wide) / 2], [high, wide]]


def _platter(rng: Random) -> Rows:
    high, wide = tenth(rng, 18, 45), tenth(rng, 180, 420)
    return [[0.0, wide * rng.uniform(0.4, 0.6)], [high * 0.4, wide * 0.8], [high, wide]]


def _lid(rng: Random) -> Rows:
    """A shallow cap that fits over a mouth, as it is turned: rim up."""
    high, wide = tenth(rng, 20, 50), tenth(rng, 50, 140)
    return [[0.0, wide * rng.uniform(0.3, 0.7)], [high * rng.uniform(0.3, 0.6), wide * 0.9], [high, wide]]


def _tub(rng: Random) -> Rows:
    high, wide = tenth(rng, 40, 180), tenth(rng, 70, 260)
    return [[0.0, wide], [high, wide * rng.uniform(0.85, 1.2)]]


def _cup(rng: Random) -> Rows:
    high, wide = tenth(rng, 50, 120), tenth(rng, 45, 95)
    return [[0.0, wide * rng.uniform(0.5, 0.9)], [high * 0.4, wide * rng.uniform(0.7, 1.0)], [high, wide]]


def _wild(rng: Random) -> Rows:
    heights = sorted({0.0, *(tenth(rng, 1, 300) for _ in range(rng.randint(1, 6)))})
    return [[z, tenth(rng, 4, 400)] for z in heights]


SHAPES = {
    "vase": _vase,
    "necked": _necked,
    "bowl": _bowl,
    "platter": _platter,
    "lid": _lid,
    "tub": _tub,
    "cup": _cup,
    "wild": _wild,
}


def vessel(rng: Random, shape: str, by: str) -> Tables:
    """A whole job of a shape, its profile given `by` stations or edges."""
    rows = [[round(z, 1), round(d, 1)] for z, d in SHAPES[shape](rng)]
    sensible, wall = shape != "wild", tenth(rng, 4, 10)
    wide, allowance = max(row[1] for row in rows), tenth(rng, 1, 5)
    tables: Tables = {
        "": {"title": shape.title(), "unit": rng.choice(["mm", "mm", "in"])},
        "profile": {by: _arcs(rng, rows, sensible) if by == "edges" else rows},
        "wall": _wall(rng, rows, wall),
        "rings": _rings(rng, rows, allowance),
        "gauges": _gauges(rng, allowance),
        "saw": {"throat": 5000.0, "blade_height": 120.0},
        "lathe": {"swing_over_bed": round(2.6 * wide + 500, 1) if sensible else tenth(rng, 200, 600)},
        "boards": {"sheet": tenth(rng, 11, 25), "thickness": tenth(rng, 12, 30)},
        "printer": {"bed": rng.choice([[220.0, 220.0], [256.0, 256.0], [400.0, 400.0]])},
        "cutter": {"bed": [2000.0, 2000.0] if chance(rng, 2) else [900.0, 600.0]},
    }
    return tables | _extras(rng, rows, wall)


def _arcs(rng: Random, rows: Rows, sensible: bool) -> Rows:
    """Corners, some of the edges between them arcs, swelling or hollow."""
    edges = [list(row) for row in rows]
    for below, row in pairwise(edges):
        if chance(rng, 2):
            chord = dist((below[0], below[1] / 2), (row[0], row[1] / 2))
            times = rng.uniform(1.2 if sensible else 0.4, 6)
            row.append(round(times * chord, 1) * rng.choice([1.0, 1.0, -1.0]))
    return edges


def _wall(rng: Random, rows: Rows, wall: float) -> dict[str, object]:
    table: dict[str, object] = {"thickness": wall}
    if chance(rng, 5):
        high = rows[-1][0]
        table = {"by_height": [[0.0, wall + 2.0], [round(high / 2, 1), wall], [high, wall]]}
    if not chance(rng, 4):
        table["floor"] = tenth(rng, 6, 13)
    if chance(rng, 2):
        table["inner_corner"] = tenth(rng, 0, 12)
    return table


def _rings(rng: Random, rows: Rows, allowance: float) -> dict[str, object]:
    least = max(9.0, rows[-1][0] / 14) + allowance
    most = max(6, min(24, int(min(row[1] for row in rows) * 3.14 / 12)))
    counts = [rng.randint(6, most) for _ in range(rng.randint(1, 3))]
    table: dict[str, object] = {
        "heights": rng.choice([tenth(rng, least, least + 25), [tenth(rng, least, least + 20) for _ in "12"]]),
        "segments": counts if chance(rng, 2) else counts[0],
        "species": rng.choice([rng.choice(WOODS), [rng.choice(WOODS), rng.choice(WOODS)]]),
        "turning_allowance": allowance,
    }
    between = rng.choice(["", "", "", "gap", "spacer"])
    if between:
        widest = min(row[1] for row in rows) * 3.14 / counts[0] / 5
        table |= {between: tenth(rng, 0.8, max(0.9, widest)), "segments": counts[0]}
    for key, value in {"base": "segmented", "turn": 0.25, "waste_block": 30.0}.items():
        if chance(rng, 4):
            table[key] = value
    return table


def _gauges(rng: Random, allowance: float) -> dict[str, object]:
    stages = sorted({tenth(rng, 0.4, allowance) for _ in range(rng.randint(0, 2))}, reverse=True)
    table: dict[str, object] = {"stages": [*stages, "finished"]}
    if chance(rng, 2):
        table["fit"] = tenth(rng, 0, 2)
    if chance(rng, 4):
        table["longest_in_hand"] = tenth(rng, 50, 250)
    return table


def _extras(rng: Random, rows: Rows, wall: float) -> Tables:
    """Now and then: a recess, staves, a way of holding, a layup, gauges made otherwise, a cutter's kerf."""
    tables: Tables = {}
    if chance(rng, 4):
        across = max(1.0, round(rows[0][1] - 30, 1))
        tables["foot"] = {"recess_diameter": across, "recess_depth": tenth(rng, 0.5, 4)}
    if chance(rng, 6):
        low = round(13 + wall + rng.uniform(5, 20), 1)
        high = round(low + rng.uniform(20, max(21, rows[-1][0])), 1)
        tables["staves"] = {"low": low, "high": high, "count": rng.randint(8, 20)}
    if chance(rng, 3):
        tables["reversing"] = {"hold": rng.choice(["taper", "inside"]), "lining": rng.choice([0.0, 1.5])}
    elif chance(rng, 2):  # many random mouths hold no plug, and are to be judged all the same
        tables["reversing"] = {"hold": "none"}
    if chance(rng, 8):
        tables["layup"] = layup(rng)
    if chance(rng, 4):
        tables["made"] = {name: rng.choice(["print", "cut", "paper"]) for name in ("gauges", "sizes")}
    if chance(rng, 5):
        tables["cutter"] = {"bed": [1500.0, 1500.0], "kerf": tenth(rng, 0, 0.4)}
    return tables
