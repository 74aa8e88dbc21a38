"""Every job in configs/ with its parts, solved once, and their files as other readers have them."""

from __future__ import annotations

import io
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import trimesh

from jigs.asked.jobfile import load
from jigs.files.formats import FORMATS
from jigs.forms.solve import solve
from jigs.parts.part import Part
from jigs.sets.rack import rack
from tests.examples import parts_of_example, plan_of_example

CONFIGS = Path(__file__).parents[2] / "configs"
TORI = sorted(path for path in CONFIGS.glob("*.toml") if "[form]" in path.read_text("utf-8"))
ROUND = [path for path in TORI if "tube_height" not in path.read_text("utf-8")]
VESSELS = [CONFIGS / "sorrel.toml", CONFIGS / "tumbler.toml"]
FILE_TOLERANCE = 0.01  # mm


def _each(paths: list[Path]) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("path", paths, ids=lambda path: path.stem)


each_torus, each_vessel, each_job = _each(TORI), _each(VESSELS), _each([*TORI, *VESSELS])
each_round = _each(ROUND)  # tori whose tube is no ellipse


@dataclass(frozen=True)
class Shop:
    """A job's plan and all its parts."""

    plan: Any  # of either form
    parts: tuple[Part, ...]

    def of(self, process: str) -> list[Part]:
        return [part for part in self.parts if part.process == process]

    def family(self, name: str) -> list[Part]:
        return [part for part in self.parts if part.family == name]

    def named(self, *starts: str) -> list[Part]:
        found = [part for part in self.parts if part.name.startswith(starts)]
        assert found, starts
        return found


@cache
def shop(path: Path, gauges: str = "print") -> Shop:
    """The shop of a job whose gauges are made so."""
    job = load(path)
    made = replace(job.workshop.made, gauges=gauges)
    if made == job.workshop.made and path.parent == CONFIGS:
        return Shop(plan_of_example(path.stem), parts_of_example(path.stem))
    plan = solve(replace(job, workshop=replace(job.workshop, made=made)))
    return Shop(plan, tuple(rack(plan)[0]))


@cache
def written(part: Part) -> bytes:
    stream = io.BytesIO()
    FORMATS[part.process].write(part, stream, 0.0)
    return stream.getvalue()


@cache
def document(part: Part) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(written(part).decode()))


@cache
def mesh(part: Part) -> trimesh.Trimesh:
    return trimesh.load(io.BytesIO(written(part)), file_type="stl")


def floor_edges(seen: trimesh.Trimesh) -> np.ndarray:
    """Edges (m, 2, 2) round the faces on z = 0."""
    floor = seen.faces[(seen.vertices[seen.faces][:, :, 2] == 0).all(axis=1)]
    edges = np.sort(np.concatenate([floor[:, [0, 1]], floor[:, [1, 2]], floor[:, [2, 0]]]), axis=1)
    single, counts = np.unique(edges, axis=0, return_counts=True)
    return seen.vertices[single[counts == 1]][:, :, :2]


def bulged(drawing: ezdxf.document.Drawing) -> list[tuple[float, float, float]]:
    """Centre and radius of each bulged piece."""
    found = []
    for line in drawing.modelspace().query("LWPOLYLINE"):
        rows = line.get_points("xyb")
        for (x0, y0, bulge), (x1, y1, _) in zip(rows, [*rows[1:], rows[0]], strict=True):
            if bulge:
                centre, _, _, radius = ezdxf.math.bulge_to_arc((x0, y0), (x1, y1), bulge)
                found.append((centre.x, centre.y, radius))
    return found


def drawn(path: Path) -> list[Part]:
    """Every part that comes as a drawing; of a round tube, an oval and two vessels those of printed gauges too."""
    otherwise = (
        shop(path, "cut").of("cut") if path.stem in ("garland", "annulet", "sorrel", "tumbler") else []
    )
    return [
        *shop(path).of("cut"),
        *shop(path).of("turn"),
        *(part for part in otherwise if part.family == "gauges"),
    ]
