"""Job files drawn key by key from the table of keys: sound ones bent here and there, to the ends of every range."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

from jigs.asked.key import Key
from jigs.asked.keys import DIAMETERS, KEYS, TABLES
from tests.sweep.tables import Tables, tenth

WOODS = ("maple", "walnut", "ash", "padauk", "bog oak", "=sum(1)")
TITLES = ("Hoop", "A", "Hoop", "Hoop", "=1+1", "Ring of the long evening, the second", "-")
Draw = Random


def sound(draw: Draw) -> Tables:
    """A torus or a vessel as most people would ask for one, on machines that are large enough."""
    return draw.choice((_torus, _torus, _vessel, _vessel, _staved))(draw) | _shop()


def _torus(draw: Draw) -> Tables:
    outer = round(draw.uniform(130, 700), 1)
    tube = round(outer * draw.uniform(0.12, 0.36), 1)
    form = {
        "outer_diameter": outer,
        "tube_diameter": tube,
        "wedge_rings": 2 * draw.randint(3, 20),
        "segments": 2 * draw.randint(3, 10),
        "core_opening": tenth(draw, 4, max(5, min(40, tube - 26))),
    }
    return {"": {"title": draw.choice(TITLES)}, "form": form}


def _vessel(draw: Draw) -> Tables:
    height = round(draw.uniform(30, 250), 1)
    heights = sorted({0.0, *(round(draw.uniform(5, height), 1) for _ in range(draw.randint(0, 3))), height})
    rows = [[z, tenth(draw, 60, 300)] for z in heights]
    rings = {
        "heights": draw.choice((tenth(draw, 12, 30), "fewest rings", "least wood")),
        "segments": draw.randint(6, 24),
        "species": draw.choice(WOODS),
    }
    boards = [{"species": rings["species"], "thickness": tenth(draw, 16, 32)}]
    kind = draw.choice(("stations", "edges"))
    return {
        "stock": {"boards": boards},
        "": {"title": draw.choice(TITLES)},
        "profile": {kind: rows},
        "wall": {"thickness": tenth(draw, 5, 12), "floor": tenth(draw, 6, 14)},
        "rings": rings,
    }


def _staved(draw: Draw) -> Tables:
    tables = _vessel(draw)
    top = next(iter(tables["profile"].values()))[-1][0]
    tables["staves"] = {
        "low": tenth(draw, 10, top / 2 + 10),
        "high": round(top * draw.uniform(0.5, 1), 1),
        "count": draw.randint(6, 24),
    }
    return tables


def _shop() -> Tables:
    return {
        "saw": {"blade_height": 250.0, "blade_diameter": 700.0, "throat": 3000.0},
        "bandsaw": {"height": 300.0, "throat": 2000.0},
        "lathe": {"swing_over_bed": 2500.0},
        "printer": {"bed": [600.0, 600.0]},
    }


def bent(tables: Tables, draw: Draw, most: int = 6) -> Tables:
    """The same with up to so many keys drawn anew, a layup in one of three, and seldom another unit."""
    new = {name: dict(table) for name, table in tables.items()}
    if draw.random() < 1 / 3:
        new["layup"] = {"plies": _plies(draw), "angle": f"{draw.uniform(0, 90):.1f}",
                        "plane": draw.choice(("flat", "end", "face")),
                        "mirrored": draw.choice(("none", "left and right", "up and down", "both"))}  # fmt: skip
    if draw.random() < 0.2:
        new.setdefault("", {})["unit"] = "in"
    keys = [key for key in KEYS if _may_bend(key, new) or draw.random() < 0.01]
    for key in draw.sample(keys, draw.randint(0, most)):
        new.setdefault(key.table, {})[key.name] = value(key, draw)
    return new


def _may_bend(key: Key, tables: Tables) -> bool:
    """Keys that may be stated beside what is stated already."""
    form = TABLES[key.table].form if key.table else None
    if key.path in ("workshop_file", "name", "unit") or form not in (
        None,
        "torus" if "form" in tables else "vessel",
    ):
        return False
    if key.table in ("profile", "inside") or key.path in ("wall.by_height", *DIAMETERS):
        return key.name in tables.get(key.table, {})
    return key.table in tables or key.table not in ("staves", "layup")


def value(key: Key, draw: Draw) -> Any:
    """A value that a key takes, or almost: often one near its default, sometimes an end of its range."""
    return _BY_KIND[key.kind](key, draw)


def _size(key: Key, draw: Draw) -> float:
    usual = key.default if isinstance(key.default, int | float) else key.example
    way = draw.random()
    if way < 0.5 and isinstance(usual, int | float) and usual:
        return round(min(key.most, max(key.least, usual * draw.choice((0.3, 0.7, 0.9, 1.2, 1.6, 3)))), 2)
    if way < 0.6:
        return float(key.least)
    if way < 0.7:
        return float(key.most)
    least = max(key.least, 0.01)
    return round(least * (max(key.most, least) / least) ** draw.random(), 2)


def _number(key: Key, draw: Draw) -> str:
    return f"{_size(key, draw):g}"


def _count(key: Key, draw: Draw) -> int:
    counted = round(_size(key, draw))
    return counted + counted % 2 if key.even else counted


def _points(key: Key, draw: Draw) -> list[list[float]]:
    z, rows = 0.0, []
    for _ in range(draw.choice((2, 3, 4, 5, 8, 40))):
        row = [z, tenth(draw, 0, 300)]
        if 3 in key.sizes and draw.random() < 0.4:
            row.append(tenth(draw, -300, 300))
        rows.append(row)
        z += (
            draw.choice((0.0, 0.1, 3.0, 20.0, 60.0))
            if 3 in key.sizes
            else draw.choice((0.1, 3.0, 20.0, 60.0))
        )
    return rows


def _heights(key: Key, draw: Draw) -> Any:
    one = [tenth(draw, 2, 60) for _ in range(draw.choice((1, 2, 5)))]
    return draw.choice((*key.choices, one, one[0], float(key.least)))


def _names(key: Key, draw: Draw) -> Any:
    flat = [draw.choice(WOODS) for _ in range(draw.randint(1, 4))]
    return draw.choice((flat[0], flat, [flat, flat[0]]))


def _plies(draw: Draw) -> list[list[object]]:
    return [[draw.choice(WOODS), draw.choice((0.1, 0.6, 2.0, 3.0, 10.0))]
            for _ in range(draw.choice((1, 2, 3, 5, 50)))]  # fmt: skip


def _boards(key: Key, draw: Draw) -> list[dict[str, Any]]:
    boards: list[dict[str, Any]] = []
    for _ in range(draw.choice((1, 2, 5, 30))):
        board = {"species": draw.choice(WOODS), "thickness": tenth(draw, 2, 60)}
        if draw.random() < 0.7:
            board |= {"width": tenth(draw, 5, 400), "length": tenth(draw, 30, 3000)}
        boards.append({**board, "count": draw.choice((1, 2, 40))})
    return boards


def _stages(key: Key, draw: Draw) -> list[object]:
    sizes = sorted(
        {round(draw.uniform(0.01, 6), 2) for _ in range(draw.choice((0, 1, 2, 5, 30)))}, reverse=True
    )
    return [*sizes, "finished"]


def _bed(key: Key, draw: Draw) -> list[float]:
    return [_size(key, draw), _size(key, draw)]


_BY_KIND: dict[str, Callable[[Key, Draw], Any]] = {
    "length": _size,
    "number": _number,
    "count": _count,
    "flag": lambda key, draw: draw.random() < 0.5,
    "text": lambda key, draw: draw.choice(TITLES),
    "name": lambda key, draw: "hoop",
    "choice": lambda key, draw: draw.choice(key.choices),
    "colour": lambda key, draw: draw.choice(("#000000", "#c0ffee", key.default)),
    "bed": _bed,
    "stages": _stages,
    "points": _points,
    "heights": _heights,
    "counts": lambda key, draw: [draw.randint(int(key.least), 40) for _ in range(draw.choice((1, 2, 4)))],
    "numbers": lambda key, draw: [draw.choice((0, 0.25, -0.5, 1)) for _ in range(draw.choice((1, 2, 4)))],
    "names": _names,
    "plies": lambda key, draw: _plies(draw),
    "boards": _boards,
    "price": lambda key, draw: draw.choice((0, 0.5, 12, 3000)),
    "prices": lambda key, draw: [[wood, draw.choice((0, 2.5, 4000))] for wood in WOODS[: draw.randint(1, 3)]],
}


def wild(draw: Draw) -> Tables:
    """The tables of a job."""
    return bent(sound(draw), draw)
