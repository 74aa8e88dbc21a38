"""Changes of a vessel's profiles and walls, which are lists of points."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Any

from geometry.curves.undershoot import steadied
from jigs.asked.change import typed
from jigs.remedies.ladder import Rung
from jigs.remedies.lever import Lever, View
from jigs.words.lengths import MM_PER_INCH, BadLength, parse_length

Rows = list[list[float]]
TABLES = ("profile", "inside")
SLACKS = (0.05, 0.1, 0.2)  # of the smallest diameter, that a radius may stay short


def rows_of(view: View, key: str) -> Rows:
    """The points of a key in mm; none where the file states none."""
    raw, unit = view.raw(key), view.job.unit
    try:
        return [[parse_length(item, unit) for item in row] for row in raw or ()]
    except (BadLength, TypeError):
        return []


def points(view: View, key: str, rows: Rows) -> list[list[Any]]:
    """Points as they are typed, those of the key's own sizes as they stand, others to 0.5 mm or 1/32 in."""
    own = {round(mm, 6): raw for some, row in zip(rows_of(view, key), view.raw(key) or (), strict=False)
           for mm, raw in zip(some, row, strict=False)}  # fmt: skip
    unit = view.job.unit
    step = 0.5 if unit == "mm" else MM_PER_INCH / 32
    return [[own.get(round(item, 6), typed(round(item / step) * step, unit)) for item in row] for row in rows]


def _scaled(view: View, keys: Sequence[str], column: int, times: Sequence[float]) -> list[Rung]:
    """One column of the points of some keys, times each of some numbers."""
    rungs = []
    for factor in times:
        changes = {
            key: points(
                view, key, [[v * factor if k == column else v for k, v in enumerate(row)] for row in rows]
            )
            for key in keys
            if (rows := rows_of(view, key))
        }
        if changes:
            rungs.append(Rung(changes, abs(factor - 1)))
    return rungs


def _steps(first: int, last: int, step: int) -> list[float]:
    return [percent / 100 for percent in range(first, last, step)]


def _walls(times: Sequence[float]) -> Callable[[View], Sequence[Rung]]:
    return lambda view: _scaled(view, ("wall.by_height",), 1, times)


def _smaller_all(view: View) -> Sequence[Rung]:
    """All diameters smaller in proportion."""
    keys = [f"{table}.{way}" for table in TABLES for way in ("stations", "edges")]
    return _scaled(view, keys, 1, _steps(98, 30, -2))


def _inside_in(view: View) -> Sequence[Rung]:
    """An inside of its own with all its diameters smaller by the same length."""
    found = []
    for less in (0.5 * k for k in range(1, 60)):
        changes = {
            key: points(view, key, [[row[0], max(1.0, row[1] - 2 * less), *row[2:]] for row in rows])
            for key in ("inside.stations", "inside.edges")
            if (rows := rows_of(view, key))
        }
        if changes:
            found.append(Rung(changes, less / 50))
    return found


def _inside_up(view: View) -> Sequence[Rung]:
    """An inside of its own farther up, whole, so that what is under it is thicker."""
    step = 0.5 if view.job.unit == "mm" else MM_PER_INCH / 32
    found = []
    for key in ("inside.stations", "inside.edges"):
        if rows := rows_of(view, key):
            low = rows[0][0]
            for up in (step * k for k in range(1, 60)):
                higher = [[row[0] + up, *row[1:]] for row in rows]
                found.append(Rung({key: points(view, key, higher)}, up / 50, low + up))
    return found


def _wider_foot(view: View) -> Sequence[Rung]:
    """The first diameter larger, from the least foot that is held."""
    for key in ("profile.stations", "profile.edges"):
        rows = rows_of(view, key)
        if rows:
            wide = (size for size in range(10, 60) if size > rows[0][1])
            return [
                Rung(
                    {key: points(view, key, [[rows[0][0], float(size)], *rows[1:]])},
                    abs(size - rows[0][1]) / 50,
                )
                for size in wide
            ]
    return []


def _more_stations(view: View) -> Sequence[Rung]:
    """A station more in the middle of one span, or of each, on the straight line between its neighbours."""
    found = []
    for key in (f"{table}.stations" for table in TABLES):
        rows = rows_of(view, key)
        middles = [[(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] for a, b in pairwise(rows)]
        more = [sorted([*rows, middle]) for middle in middles]
        if len(middles) > 1:
            more.append(sorted([*rows, *middles]))
        thirds = [
            [a[0] + (b[0] - a[0]) * k / 3, a[1] + (b[1] - a[1]) * k / 3]
            for a, b in pairwise(rows)
            for k in (1, 2)
        ]
        more.append(sorted([*rows, *thirds]))
        found += [
            Rung({key: points(view, key, some)}, 0.1 * (len(some) - len(rows)))
            for some in more
            if len(some) > len(rows)
        ]
    return found


def steady_rows(view: View) -> list[Rows]:
    """Stations more where the curve undershoots, so that it is about as thick as the others state."""
    rows, found = rows_of(view, "profile.stations"), []
    for slack in SLACKS if rows else ():
        more = steadied([(row[1] / 2, row[0]) for row in rows], slack * min(row[1] for row in rows))
        own = [[height, 2 * radius] for radius, height in more]
        found += [own] if len(own) > len(rows) and own not in found else []
    return found


def steady_rung(view: View, rows: Rows) -> Rung:
    return Rung({"profile.stations": points(view, "profile.stations", rows)}, 0.05 * len(rows))


def _steady_stations(view: View) -> Sequence[Rung]:
    return [steady_rung(view, rows) for rows in steady_rows(view)]


def _gentler_arcs(view: View) -> Sequence[Rung]:
    """The arcs of one edge, or of all, with larger radii; last of all straight."""
    found = []
    for key in (f"{table}.edges" for table in TABLES):
        rows = rows_of(view, key)
        arcs = [k for k, row in enumerate(rows) if len(row) == 3]
        which = [[k] for k in arcs] + ([arcs] if len(arcs) > 1 else [])
        for some in which:
            for times in (1.25, 1.5, 2.0, 3.0, 5.0, 10.0):
                wider = [[*row[:2], row[2] * times] if k in some else row for k, row in enumerate(rows)]
                if all(abs(row[2]) <= 5000 for row in wider if len(row) == 3):
                    found.append(Rung({key: points(view, key, wider)}, 0.1 * times * len(some)))
            straight = [row[:2] if k in some else row for k, row in enumerate(rows)]
            found.append(Rung({key: points(view, key, straight)}, 1.0 * len(some)))
    return sorted(found, key=lambda rung: rung.far)


def _straight_edges(view: View) -> Sequence[Rung]:
    """Straight edges through the stations instead of a smooth curve."""
    found = []
    for table in TABLES:
        rows = rows_of(view, f"{table}.stations")
        if rows:
            edges = points(view, f"{table}.stations", rows)
            found.append(Rung({f"{table}.stations": None, f"{table}.edges": edges}, 0.5))
    return found


def _no_recess(view: View) -> Sequence[Rung]:
    keys = [key for key in ("foot.recess_diameter", "foot.recess_depth") if view.raw(key) is not None]
    return [Rung(dict.fromkeys(keys), 0.0)] if keys else []


NO_RECESS = Lever("foot.recess_diameter", _no_recess, None, False, 2.0)
THICKER_WALLS = Lever("wall.by_height", _walls(_steps(105, 300, 5)), "up", True, 2.0)
THINNER_WALLS = Lever("wall.by_height", _walls(_steps(95, 20, -5)), "down", True, 2.0)
SMALLER_ALL = Lever("profile", _smaller_all, "down")
WIDER_WALL_INSIDE = Lever("inside", _inside_in, "down")
HIGHER_INSIDE = Lever("inside", _inside_up, "up")
WIDER_FOOT = Lever("profile", _wider_foot, "up")
STEADY_STATIONS = Lever("profile", _steady_stations, None, False)
MORE_STATIONS = Lever("profile", _more_stations, None, False)
GENTLER_ARCS = Lever("profile", _gentler_arcs, None, False)
STRAIGHT_EDGES = Lever("profile", _straight_edges, None, False)
