"""Good sets made slightly wrong, one file at a time: the dry fit has to find each, or the change hurts nothing.

    python -m tests.sweep.mutations --count 200 --seed 1 trellis tumbler

Prints every change that passes, and whether it is one of those known to be harmless, with the reason.
"""

from __future__ import annotations

import argparse
import re
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from math import cos, radians, sin
from pathlib import Path
from random import Random
from typing import Any

import ezdxf
import numpy as np
from stl import mesh as stl_mesh

from jigs.asked.jobfile import load
from jigs.dryfit.fit import DryFit
from jigs.sets.make import make
from jigs.words.file_names import what_of
from tests.jigs.redrawn import redraw
from tests.sweep.harmless import HARMLESS
from tests.sweep.remembered import Remembered

CONFIGS = Path(__file__).parents[2] / "configs"
Change = Callable[[Path, Random], bool | str]  # what it was, or False where the file has nothing of the kind


@dataclass(frozen=True)
class Tried:
    file: str
    change: str
    found: bool
    faults: int
    why: str  # it is harmless, if it is

    @property
    def missed(self) -> bool:
        return not self.found and not self.why


def in_drawing(edit: Callable[[Any, Random], bool | str]) -> Change:
    def change(file: Path, rng: Random) -> bool | str:
        done = list[bool | str]()
        redraw(file, lambda space: done.append(edit(space, rng)))
        return done[0]

    change.__name__ = edit.__name__
    return change


def in_all_of_it(edit: Callable[[Any, Random], bool | str]) -> Change:
    """In a drawing, its lettering and its header too."""

    def change(file: Path, rng: Random) -> bool | str:
        document = ezdxf.readfile(file)  # type: ignore[attr-defined]
        done = edit(document.modelspace(), rng)
        document.saveas(file)
        return done

    change.__name__ = edit.__name__
    return change


def _closed(space: Any) -> list[Any]:
    """Outline and holes, the largest first; a round outline is a circle, those on the drill layer are not."""
    found = [e for e in space.query("LWPOLYLINE CIRCLE") if e.dxf.layer in ("cut", "section")]
    return sorted((e for e in found if e.dxftype() == "CIRCLE" or e.closed), key=lambda e: -_size(e))


def _size(entity: Any) -> float:
    return float(np.prod(np.ptp(np.array(_corners(entity)), axis=0)))


def _corners(entity: Any) -> list[tuple[float, float]]:
    """Of a polyline its points, of a circle those of its box."""
    if entity.dxftype() == "CIRCLE":
        (x, y, _), r = entity.dxf.center, entity.dxf.radius
        return [(x - r, y - r), (x + r, y + r)]
    return list(entity.get_points("xy"))


def _edited(entity: Any, edit: Callable[[np.ndarray], None]) -> None:
    points = np.array(list(entity.get_points("xyb")))
    edit(points)
    entity.set_points(points.tolist(), format="xyb")


def _either(rng: Random, size: float) -> float:
    return rng.choice([-1, 1]) * size


def gone(file: Path, _rng: Random) -> bool:
    file.unlink()
    return True


@in_all_of_it
def scaled(space: Any, rng: Random) -> bool:
    for entity in space:
        entity.scale_uniform(1 + _either(rng, 0.01))
    return True


@in_all_of_it
def mirrored(space: Any, _rng: Random) -> bool:
    for entity in space:
        entity.transform(ezdxf.math.Matrix44.scale(-1, 1, 1))
    return True


@in_all_of_it
def flipped(space: Any, _rng: Random) -> bool:
    """Mirrored in its places, not by the way it is seen."""
    for entity in space.query("LWPOLYLINE"):
        entity.set_points([(-x, y, -b) for x, y, b in entity.get_points("xyb")], format="xyb")
    for entity in space.query("CIRCLE"):
        entity.dxf.center = (-entity.dxf.center.x, entity.dxf.center.y)
    return True


@in_all_of_it
def in_inches(space: Any, _rng: Random) -> bool:
    space.doc.header["$INSUNITS"] = 1
    return True


@in_drawing
def hole_moved(space: Any, rng: Random) -> bool:
    circles, slots = list(space.query('CIRCLE[layer=="drill"]')), _closed(space)[1:]
    if not circles and not slots:
        return False
    one, turn = rng.choice([*circles, *slots]), rng.uniform(0, 6.28)
    one.translate(2.0 * cos(turn), 2.0 * sin(turn), 0)
    return True


@in_drawing
def hole_resized(space: Any, rng: Random) -> bool:
    circles = list(space.query('CIRCLE[layer=="drill"]'))
    if circles:
        rng.choice(circles).dxf.radius += _either(rng, 0.4)
    return bool(circles)


@in_drawing
def hole_gone(space: Any, rng: Random) -> bool:
    found = [*space.query('CIRCLE[layer=="drill"]'), *_closed(space)[1:]]
    if found:
        space.delete_entity(rng.choice(found))
    return bool(found)


def _named(space: Any) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = {}
    for entity in space.query("LWPOLYLINE"):
        if entity.has_xdata("JIGS"):
            found.setdefault(entity.get_xdata("JIGS")[0].value, []).append(entity)
    return found


@in_drawing
def line_moved(space: Any, rng: Random) -> bool | str:
    """Every piece of a marked line, square to itself."""
    lines = _named(space)
    if not lines:
        return False
    name = rng.choice(sorted(lines))
    own = lines[name]
    (x0, y0), (x1, y1) = own[0].get_points("xy")[0], own[0].get_points("xy")[-1]
    long, by = float(np.hypot(x1 - x0, y1 - y0)), _either(rng, 1.0)
    if long < 1e-6:  # it comes back to where it began
        (x1, y1), long = (x0, y0 + 1.0), 1.0
    for entity in own:
        entity.translate(-(y1 - y0) / long * by, (x1 - x0) / long * by, 0)
    return str(name)


@in_drawing
def line_gone(space: Any, rng: Random) -> bool | str:
    lines = _named(space)
    if not lines:
        return False
    name = rng.choice(sorted(lines))
    for entity in lines[name]:
        space.delete_entity(entity)
    return str(name)


@in_drawing
def edge_moved(space: Any, rng: Random) -> bool:
    """A long straight edge of the outline, square to itself."""
    outline = _closed(space)[0]
    if outline.dxftype() == "CIRCLE":
        return False
    points = np.array(list(outline.get_points("xyb")))
    ends = np.roll(points, -1, axis=0)
    long = np.hypot(*(ends - points)[:, :2].T)
    straight = np.flatnonzero((points[:, 2] == 0) & (long > 15))
    if not len(straight):
        return False
    i = int(rng.choice(straight.tolist()))
    along = (ends[i] - points[i])[:2] / long[i]
    by = _either(rng, 1.0)

    def edit(rows: np.ndarray) -> None:
        rows[[i, (i + 1) % len(rows)], :2] += np.array((-along[1], along[0])) * by

    _edited(outline, edit)
    return True


@in_drawing
def shorter(space: Any, rng: Random) -> bool:
    """Everything at one end of the outline, 40 mm nearer to the other."""
    outline, axis = _closed(space)[0], rng.choice([0, 1])

    def edit(rows: np.ndarray) -> None:
        rows[rows[:, axis] > rows[:, axis].max() - 1.0, axis] -= 40.0

    size = np.ptp(np.array(_corners(outline))[:, axis])
    if size < 90 or outline.dxftype() == "CIRCLE":
        return False
    _edited(outline, edit)
    return True


def _long(slot: Any) -> bool:
    """Whether a sheet feels so small a turn of it."""
    return bool(np.ptp(np.array(_corners(slot)), axis=0).max() > 20)


@in_drawing
def slot_turned(space: Any, rng: Random) -> bool:
    slots = [e for e in _closed(space)[1:] if e.dxftype() != "CIRCLE" and len(e) == 4 and _long(e)]
    if not slots:
        return False
    turn = radians(_either(rng, 0.2))
    matrix = np.array([[cos(turn), sin(turn)], [-sin(turn), cos(turn)]])

    def edit(rows: np.ndarray) -> None:
        middle = rows[:, :2].mean(axis=0)
        rows[:, :2] = (rows[:, :2] - middle) @ matrix + middle

    _edited(rng.choice(slots), edit)
    return True


@in_drawing
def piece_moved(space: Any, rng: Random) -> bool | str:
    piece = rng.choice(_closed(space))
    points = np.array(_corners(piece))
    places = [tuple(circle.dxf.center)[:2] for circle in space.query('CIRCLE[layer=="drill"]')]
    places += [_corners(e)[0] for e in _closed(space) if e is not piece]
    within = [(points.min(axis=0) < place).all() and (place < points.max(axis=0)).all() for place in places]
    piece.translate(0.5, 0, 0)
    return True if any(within) else "without holes"


@in_drawing
def piece_gone(space: Any, rng: Random) -> bool:
    space.delete_entity(rng.choice(_closed(space)))
    return True


def in_mesh(edit: Callable[[np.ndarray, Random], None]) -> Change:
    def change(file: Path, rng: Random) -> bool:
        plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
        corners = plate.vectors.reshape(-1, 3).astype(float)
        edit(corners, rng)
        plate.vectors[:] = corners.reshape(-1, 3, 3)
        plate.save(str(file))
        return True

    change.__name__ = edit.__name__
    return change


@in_mesh
def mesh_scaled(corners: np.ndarray, rng: Random) -> None:
    corners[:, :2] *= 1 + _either(rng, 0.01)


@in_mesh
def mesh_stretched(corners: np.ndarray, rng: Random) -> None:
    """In one direction only."""
    corners[:, rng.choice([0, 1])] *= 1 + _either(rng, 0.01)


@in_mesh
def mesh_mirrored(corners: np.ndarray, _rng: Random) -> None:
    corners[:, 0] *= -1


DRAWING = (gone, scaled, mirrored, flipped, in_inches, hole_moved, hole_resized, hole_gone, line_moved, line_gone,
           edge_moved, shorter, slot_turned)  # fmt: skip
SHEET = (
    gone,
    scaled,
    mirrored,
    flipped,
    in_inches,
    piece_moved,
    piece_gone,
    hole_moved,
    hole_resized,
    line_moved,
)
MESH = (gone, mesh_scaled, mesh_stretched, mesh_mirrored)
FEED = re.compile("exit-block|batten|-base")
OF_FEEDS, OF_SHEETS, OF_MESHES = 0.2, 0.15, 0.15  # of all changes


def tried(made: Remembered, rng: Random) -> Tried:
    """One change of one file, what the dry fit says, and everything put back."""
    folder = made.folder
    while True:
        file, change = _chosen(folder, rng)
        with put_back(file):
            if done := change(file, rng):
                found, name = made.again(), f"{file.parent.name}/{what_of(file)}{file.suffix}"
                told = change.__name__ if done is True else f"{change.__name__}, {done}"
                return _tried(name, told, found)


def _tried(name: str, change: str, found: DryFit) -> Tried:
    why = next((w for f, c, w in HARMLESS if re.search(f, name) and re.fullmatch(c, change)), "")
    return Tried(name, change, bool(found.misfits), len(found.faults), "" if found.misfits else why)


def _chosen(folder: Path, rng: Random) -> tuple[Path, Change]:
    drawn = sorted([*folder.glob("cut/*.dxf"), *folder.glob("turn/*.dxf")])
    share = rng.random()
    if share < OF_FEEDS:
        return rng.choice([file for file in drawn if FEED.search(file.name)]), rng.choice(DRAWING)
    if share < OF_FEEDS + OF_SHEETS:
        return rng.choice(sorted(folder.glob("sheets/*.dxf"))), rng.choice(SHEET)
    if share < OF_FEEDS + OF_SHEETS + OF_MESHES:
        return rng.choice(sorted(folder.glob("print/*.stl"))), rng.choice(MESH)
    return rng.choice(drawn), rng.choice(DRAWING)


@contextmanager
def put_back(file: Path) -> Iterator[None]:
    """Its content, whatever becomes of it meanwhile."""
    content = file.read_bytes()
    try:
        yield
    finally:
        file.write_bytes(content)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("examples", nargs="*", default=["trellis", "tumbler"])
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    found: list[Tried] = []
    with tempfile.TemporaryDirectory() as root:
        sets = list[Remembered]()
        for example in asked.examples:
            job = load(CONFIGS / f"{example}.toml")
            sets.append(Remembered(job, make(job, Path(root)).folder))
        for number in range(asked.count):
            made = sets[number % len(sets)]
            one = tried(made, Random(f"{asked.seed} {number}"))
            found.append(one)
            if not one.found or one.faults:
                told = f"{number} {made.job.name} {one.file}: {one.change}: {one.why or 'NOT FOUND'}"
                print(told + (f"; {one.faults} faults" if one.faults else ""), flush=True)
    kinds = Counter(one.change.partition(",")[0] for one in found)
    print(
        f"{len(found)} changes: {sum(o.found for o in found)} found, {sum(bool(o.why) for o in found)} harmless, "
        f"{sum(o.missed for o in found)} missed, {sum(o.faults > 0 for o in found)} with faults of the dry fit"
    )
    print(", ".join(f"{name} {count}" for name, count in sorted(kinds.items())))
    return 1 if any(one.missed for one in found) else 0


if __name__ == "__main__":
    sys.exit(main())
