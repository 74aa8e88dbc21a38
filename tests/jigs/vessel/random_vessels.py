"""Random vessel jobs as tables of keys, four of five sensible ones on machines that are large enough."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import dist

from hypothesis import strategies as st

from tests.jigs.random_jobs import TITLES, tenths

Tables = dict[str, dict[str, object]]
Rows = list[list[float]]
WOODS = st.sampled_from(["maple", "walnut", "ash", "cherry", "bog oak"])


def text(tables: Tables) -> str:
    """The job file; what stands under "" stands at its head."""
    head = _lines(tables.get("", {}))
    return head + "".join(f"\n[{name}]\n{_lines(table)}" for name, table in tables.items() if name)


class Number(float):
    """A number in a job file that is no length."""


def _lines(table: dict[str, object]) -> str:
    return "".join(f"{key} = {_value(value)}\n" for key, value in table.items())


def _value(value: object) -> str:
    """Lengths (floats) name their unit, so that the job's own is free; counts and degrees are whole numbers."""
    if isinstance(value, list):
        return f"[{', '.join(_value(item) for item in value)}]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {_value(item)}" for key, item in value.items()) + "}"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float) and not isinstance(value, Number):
        return f'"{value:.9f} mm"'
    return f'"{value}"' if isinstance(value, str) else str(value)


@dataclass(frozen=True)
class Wish:
    """What most numbers of a job are drawn around. `rows` are heights and diameters, from the foot up."""

    rows: Rows
    wall: float
    floor: float
    allowance: float
    sensible: bool

    @property
    def height(self) -> float:
        return self.rows[-1][0]

    @property
    def widest(self) -> float:
        return max(row[1] for row in self.rows)

    @property
    def narrowest(self) -> float:
        return min(row[1] for row in self.rows)


def sometimes(one_in: int) -> st.SearchStrategy[bool]:
    return st.integers(1, one_in).map(lambda k: k == one_in)


@st.composite
def wishes(draw: st.DrawFn, sensible: bool) -> Wish:
    """Foot, belly and mouth, and places between them a little off the straight."""
    if not sensible:
        heights = sorted({0.0, *(draw(tenths(1, 300)) for _ in range(draw(st.integers(1, 5))))})
        rows = [[z, draw(tenths(4, 400))] for z in heights]
        return Wish(rows, draw(tenths(0.5, 25)), draw(tenths(0.5, 30)), draw(tenths(0.5, 8)), False)
    height, widest = draw(tenths(40, 220)), draw(tenths(80, 320))
    shares = sorted({0.0, 1.0, *(draw(st.integers(1, 9)) / 10 for _ in range(draw(st.integers(1, 3))))})
    foot, mouth = widest * draw(st.integers(35, 90)) / 100, widest * draw(st.integers(35, 100)) / 100
    belly = draw(st.integers(3, 10)) / 10
    rows = [
        [round(height * share, 1), round(_across(share, belly, foot, widest, mouth), 1)] for share in shares
    ]
    for row in rows[1:-1]:
        row[1] = round(row[1] * draw(st.integers(97, 103)) / 100, 1)
    return Wish(rows, draw(tenths(5, 10)), draw(tenths(7, 14)), draw(tenths(1, 5)), True)


def _across(share: float, belly: float, foot: float, widest: float, mouth: float) -> float:
    """Diameter at a share of the height: widest at `belly`, rounded below, straight above."""
    if share <= belly:
        return foot + (widest - foot) * (1 - (1 - share / belly) ** 2)
    return widest + (mouth - widest) * (share - belly) / (1 - belly)


@st.composite
def shapes(draw: st.DrawFn, rows: Rows, sensible: bool) -> dict[str, object]:
    """A table of a profile: stations, or edges of which some are arcs."""
    if draw(st.booleans()):
        return {"stations": rows}
    edges = [list(row) for row in rows]
    for below, row in pairwise(edges):
        if draw(st.booleans()):
            chord = dist((below[0], below[1] / 2), (row[0], row[1] / 2))
            times = draw(st.integers(12 if sensible else 4, 60)) / 10
            row.append(round(times * chord, 1) * draw(st.sampled_from([1.0, 1.0, -1.0])))
    return {"edges": edges}


@st.composite
def insides(draw: st.DrawFn, wish: Wish) -> dict[str, object]:
    """An inside of its own beside the outside, about the wall away."""
    above = [row for row in wish.rows[1:] if row[0] > wish.floor + 5]
    across = wish.rows[0][1] - 2 * wish.wall
    rows = [[wish.floor, across], *([z, d - 2.3 * wish.wall] for z, d in above)]
    return draw(shapes([[z, round(max(4.0, d), 1)] for z, d in rows], wish.sensible))


@st.composite
def walls(draw: st.DrawFn, wish: Wish) -> Tables:
    """One wall, one by height, or an inside of its own."""
    way = draw(st.integers(0, 4))
    table: dict[str, object] = {} if draw(st.booleans()) else {"inner_corner": draw(tenths(0, 12))}
    if way == 0 and wish.height > wish.floor + 6:
        return {"inside": draw(insides(wish)), **({"wall": table} if table else {})}
    if way == 1:
        middle = round(wish.height * draw(st.integers(2, 8)) / 10, 1)
        ends = [0.0, middle, wish.height]
        table["by_height"] = [[z, round(wish.wall * draw(st.integers(70, 130)) / 100, 1)] for z in ends]
    else:
        table["thickness"] = wish.wall
    if draw(sometimes(6)):
        table["through"] = True
    elif draw(st.integers(0, 3)):
        table["floor"] = wish.floor
    return {"wall": table}


@st.composite
def heights(draw: st.DrawFn, wish: Wish) -> Tables:
    """One height, a list, or chosen from boards."""
    least = max(8.0 if wish.sensible else 3.0, wish.height / 14)
    one = tenths(least + (wish.allowance + 3 if wish.sensible else 0), least + 25)
    way = draw(st.sampled_from([1, 1, 1, 1, 2, 3] if wish.sensible else [1, 1, 2, 3]))
    if way == 1:
        return {"rings": {"heights": draw(one)}}
    if way == 2:
        return {"rings": {"heights": [draw(one) for _ in range(draw(st.integers(1, 3)))]}}
    listed = st.integers(1 if wish.sensible else 0, 3)
    boards = [{"species": draw(WOODS), "thickness": draw(one)} for _ in range(draw(listed))]
    best = draw(st.sampled_from(["fewest rings", "least wood"]))
    return {"rings": {"heights": best}, "stock": {"boards": boards}}


@st.composite
def rings(draw: st.DrawFn, wish: Wish) -> Tables:
    """Heights, segments and what stands between them."""
    tables = draw(heights(wish))
    most = min(24, int(wish.narrowest * 3.14 / 12)) if wish.sensible else 40
    counts = [draw(st.integers(6, max(6, most))) for _ in range(draw(st.integers(1, 3)))]
    between = draw(st.sampled_from(["", "", "", "gap", "spacer"]))
    wide = wish.narrowest * 3.14 / max(counts) / 5 if wish.sensible else 20
    tables["rings"] |= {
        "segments": counts if draw(st.booleans()) else counts[0],
        "species": draw(WOODS | st.lists(WOODS, min_size=1, max_size=3)),
        "turning_allowance": wish.allowance,
    }
    if between:
        tables["rings"] |= {between: draw(tenths(0.5, max(0.6, wide))), "segments": counts[0]}
    for key, choices in {
        "base": ["segmented"],
        "turn": [0, Number(0.25), [1, Number(-0.5)]],
        "waste_block": [18.0, 30.0],
    }.items():
        if draw(sometimes(4)):
            tables["rings"][key] = draw(st.sampled_from(choices))
    return tables


@st.composite
def extras(draw: st.DrawFn, wish: Wish) -> Tables:
    """A hollow in the foot, staves, a way of holding."""
    tables: Tables = {}
    if draw(sometimes(4)):
        across = wish.rows[0][1] - (30 if wish.sensible else 5)
        tables["foot"] = {"recess_diameter": max(1.0, round(across, 1)), "recess_depth": draw(tenths(0.5, 4))}
    if draw(sometimes(10 if wish.sensible else 5)):
        low = round(wish.floor + wish.wall + 10 if wish.sensible else draw(tenths(1, 100)), 1)
        high = round(low + draw(tenths(10, max(11.0, wish.height))), 1)
        tables["staves"] = {"low": low, "high": high, "count": draw(st.integers(8, 20))}
    if draw(sometimes(8 if wish.sensible else 4)):
        tables["reversing"] = {
            "hold": draw(st.sampled_from(["auto", "taper", "inside", "bolt"])),
            "base_hole": draw(st.sampled_from([0.0, 6.0, 11.0])),
            "taper": draw(st.integers(1, 5)),
            "lining": draw(st.sampled_from([0.0, 1.5])),
        }
    elif wish.sensible and not draw(sometimes(5)):  # else most mouths refuse the job
        tables["reversing"] = draw(st.sampled_from([{"hold": "none"}, {"base_hole": 11.0}]))
    return tables


@st.composite
def machines(draw: st.DrawFn, wish: Wish) -> Tables:
    """Large enough for a sensible wish; else anything."""
    if wish.sensible:
        size = round(2.6 * wish.widest + 500, 1)
        bed = draw(st.sampled_from([220.0, 256.0, 400.0]))
        return {
            "saw": {"throat": size, "blade_height": 100.0},
            "lathe": {"swing_over_bed": size},
            "printer": {"bed": [bed, bed], "nozzle": draw(st.sampled_from([0.2, 0.4, 0.4, 0.6]))},
        }
    return {
        "saw": {
            "throat": draw(tenths(100, 600)),
            "blade_height": draw(tenths(15, 140)),
            "slot_distance": draw(tenths(40, 250)),
        },
        "lathe": {"swing_over_bed": draw(tenths(200, 500))},
        "boards": {"thickness": draw(tenths(6, 30)), "sheet": draw(tenths(11, 25))},
        "printer": {"bed": [draw(tenths(60, 220)), 220.0], "nozzle": draw(st.sampled_from([0.4, 0.8]))},
    }


@st.composite
def gauges(draw: st.DrawFn, wish: Wish) -> Tables:
    """Stages, and how the gauges are made."""
    tables: Tables = {}
    if draw(st.booleans()):
        stages = sorted({draw(tenths(0.5, 5)) for _ in range(draw(st.integers(0, 2)))}, reverse=True)
        kept = [stage for stage in stages if not wish.sensible or stage <= wish.allowance]
        tables["gauges"] = {"stages": [*kept, "finished"]}
    if draw(sometimes(5)):
        tables.setdefault("gauges", {})["longest_in_hand"] = draw(tenths(50, 250))
    if draw(sometimes(5)):
        tables["made"] = {"gauges": draw(st.sampled_from(["cut", "paper"]))}
    return tables


@st.composite
def vessels(draw: st.DrawFn, of_five: int = 4) -> Tables:
    """Whole jobs, so many of five sensible."""
    sensible = draw(st.integers(0, 4)) < of_five
    wish = draw(wishes(sensible))
    return {
        "": {"title": draw(TITLES), "unit": draw(st.sampled_from(["mm", "in"]))},
        "profile": draw(shapes(wish.rows, sensible)),
        **draw(walls(wish)),
        **draw(rings(wish)),
        **draw(extras(wish)),
        **draw(gauges(wish)),
        **draw(machines(wish)),
    }
