"""The files of a set as other libraries read them."""

from __future__ import annotations

from dataclasses import field
from fnmatch import fnmatchcase
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from shapely import affinity

from geometry.plane.contour import Contour
from geometry.plane.offset import offset
from geometry.records import Record, replace
from jigs.asked.job import Job
from jigs.dryfit.model import Drawn, Drill, Plate, contour_of, joined
from jigs.dryfit.readers import read_dxf, read_stl, read_svg
from jigs.files.manifest import as_written, extras_of, read_manifest
from jigs.words.file_names import what_of
from jigs.words.findings import Finding, Refused

ROUND = 64  # chords in a quarter of a hole
READ = {"print": "stl", "cut": "dxf", "turn": "dxf", "paper": "svg"}  # the kind of file by folder


class Files(Record):
    """A folder of written files; what is cut from sheet is `sheet` thick where the manifest does not say otherwise."""

    folder: Path
    kerf: float
    sheet: float

    @classmethod
    def of(cls, job: Job, folder: Path) -> Files:
        return cls(folder, job.workshop.cutter.kerf, job.workshop.boards.sheet)

    @cached_property
    def _manifest(self) -> dict[str, Any]:
        return read_manifest(self.folder) or {"files": []}

    @property
    def written(self) -> dict[str, str]:
        """Every file that make wrote into the set, with its SHA-256."""
        rows = (*self._manifest["files"], *extras_of(self._manifest))
        return {row["file"]: row["sha256"] for row in rows}

    @cached_property
    def cut_parts(self) -> dict[str, Path]:
        """The files of what is cut from sheet."""
        rows = [row for row in self._manifest["files"] if row.get("process") == "cut"]
        return {row["part"]: self.folder / row["file"] for row in rows}

    @property
    def wedge_turn(self) -> float:
        """By how much the wedge was made larger for a saw that errs the other way, radians."""
        corrected = self._manifest.get("corrected", {})
        return float(corrected.get("wedge-turn", 0.0))

    @cached_property
    def families(self) -> dict[str, str]:
        """The family of each part."""
        return {row["part"]: str(row["family"]) for row in self._manifest["files"]}

    @property
    def _drawn_sizes(self) -> dict[str, tuple[float, ...]]:
        """Of prints that are drawn for a printer that errs: its error of outsides and of openings, and its scale."""
        rows = self._manifest["files"]
        return {row["part"]: tuple(map(float, row["drawn"])) for row in rows if "drawn" in row}

    def thickness(self, name: str) -> float:
        """How thick a cut part is by the manifest; as the sheet is where it does not say, as of a paper pattern."""
        told = [float(row.get("thickness", 0)) for row in self._manifest["files"] if row["part"] == name]
        return next(iter(told), 0.0) or self.sheet

    @property
    def quantities(self) -> dict[str, int]:
        """How many of each part are needed."""
        return {row["part"]: int(row.get("quantity", 1)) for row in self._manifest["files"]}

    @property
    def solid_wood(self) -> set[str]:
        """Parts that are made from strips of hardwood, not from sheet."""
        return {row["part"] for row in self._manifest["files"] if row["material"].startswith("hardwood")}

    def as_written(self, file: Path) -> Drawn:
        """A drawing, the cutter's kerf still in it. Raises Refused where it is missing or unreadable."""
        return _read(Standing.of(file))

    def changed(self) -> tuple[str, ...]:
        """Files that are not as make wrote them."""
        return tuple(n for n, digest in self.written.items() if not as_written(self.folder / n, digest))

    def names(self, folder: str = "") -> list[str]:
        """Names of all parts, or of those in one folder."""
        return sorted(what_of(file) for file in self._all if folder in ("", file.parent.name))

    def has(self, name: str) -> bool:
        """Whether there is such a part, whole or in pieces."""
        return bool(self._files(name))

    def left_out(self, name: str) -> bool:
        """Whether the set does without this part, or all whose names go on behind it, by the turner's choice."""
        without = self._manifest.get("left_out", ())
        return any(part == name or part.startswith(f"{name}-") for part in without)

    def on_paper(self, name: str) -> bool:
        return any(file.suffix == ".svg" for file in self._files(name))

    def numbered(self, name: str) -> list[str]:
        """`name`, or name-1, name-2 and so on."""
        found = {_whole(other) for other in self.names() if fnmatchcase(other, f"{name}-[0-9]*")}
        return [name] if self.has(name) else sorted(found)

    def facing(self, name: str, turned: bool) -> Drawn:
        """A part's drawing, mirrored where it is drawn for a blade that tilts the other way."""
        return self.drawn(name).turned() if turned else self.drawn(name)

    def drawn(self, name: str) -> Drawn:
        """A part's drawing, as it is once cut. Raises Refused where it is missing or unreadable."""
        files = self._found(name)
        if len(files) == 1 and files[0].suffix != ".stl":
            return _drawn(Standing.of(files[0]), self.kerf)
        face = self.plate(name).face  # no lines, arcs in chords
        return Drawn(name, contour_of(face), (), (), {}, np.zeros((0, 2)))

    def plate(self, name: str) -> Plate:
        """A part's plate, its pieces put together. Raises Refused where it is missing or unreadable."""
        pieces = [self._piece(file) for file in self._found(name)]
        face = joined([piece.face for piece in pieces])
        lands = [piece.land for piece in pieces if piece.land is not None]
        return Plate(name, face, pieces[0].thickness, min(lands, default=None))

    def _piece(self, file: Path) -> Plate:
        if file.suffix == ".stl":
            return _made(_printed(Standing.of(file)), self._drawn_sizes.get(what_of(file), ()))
        drawing = _drawn(Standing.of(file), self.kerf)
        return Plate(what_of(file), _drilled(drawing), self.thickness(what_of(file)), None)

    def _files(self, name: str) -> list[Path]:
        pieces = f"{name}-[a-h]"
        near = [(own, file) for own, file in self._named if own.startswith(name)]
        return [file for own, file in near if own == name or fnmatchcase(own, pieces)]

    @cached_property
    def _all(self) -> list[Path]:
        """The files of parts."""
        found = (self.folder.glob(f"{folder}/*.{kind}") for folder, kind in READ.items())
        return sorted(file for files in found for file in files)

    @cached_property
    def _named(self) -> list[tuple[str, Path]]:
        return [(what_of(file), file) for file in self._all]

    def _found(self, name: str) -> list[Path]:
        files = self._files(name)
        if not files:
            message = f"{self.folder} has no file of the {name}"
            raise Refused([Finding("missing-file", message, "make the job again")])
        return files


def stages_of(job: Job) -> list[tuple[str, float]]:
    """Each stage's name in files, and what it leaves on the work."""
    *before, last = job.gauges.stages
    return [*((f"stage-{k}", offset) for k, offset in enumerate(before, 1)), ("finished", last)]


def _drilled(drawing: Drawn) -> shapely.Polygon:
    """A plate with its round holes."""
    holes = [shapely.Point(d.centre).buffer(d.diameter / 2, quad_segs=ROUND) for d in drawing.drills]
    drilled = drawing.shape.difference(shapely.union_all(holes))
    return drilled if isinstance(drilled, shapely.Polygon) else drawing.shape


def _whole(stem: str) -> str:
    """The part's name without the letter of its piece."""
    return stem[:-2] if stem[-2:-1] == "-" and stem[-1].isalpha() else stem


class Standing(Record):
    """A file as it stands. One of the same name with the same in it, in another set, is not read again."""

    file: Path = field(compare=False)
    name: str
    content: bytes  # nothing where there is no file

    @classmethod
    def of(cls, file: Path) -> Standing:
        try:
            content = file.read_bytes()
        except OSError:
            content = b""
        return cls(file, f"{file.parent.name}/{file.name}", content)


@lru_cache(maxsize=256)
def _printed(standing: Standing) -> Plate:
    return read_stl(standing.file)


def _made(plate: Plate, drawn: tuple[float, ...]) -> Plate:
    """What a printer that errs so makes of a plate."""
    if not drawn:
        return plate
    outside, inside, scale = drawn
    face = affinity.scale(plate.face, scale, scale, origin=(0, 0))
    whole = shapely.Polygon(face.exterior).buffer(outside / 2, join_style="mitre")
    openings = [shapely.Polygon(hole).buffer(inside / 2, join_style="mitre") for hole in face.interiors]
    made = whole.difference(shapely.union_all(openings))
    return replace(plate, face=made) if isinstance(made, shapely.Polygon) else plate


@lru_cache(maxsize=256)
def _read(standing: Standing) -> Drawn:
    file = standing.file
    return read_svg(file) if file.suffix == ".svg" else read_dxf(file)


@lru_cache(maxsize=256)
def _drawn(standing: Standing, kerf: float) -> Drawn:
    drawing = _read(standing)
    return drawing if kerf == 0 or standing.file.parent.name != "cut" else _cut(drawing, kerf)


def _cut(drawing: Drawn, kerf: float) -> Drawn:
    """What is left once the cutter has gone along the lines with its middle."""

    def moved(contour: Contour, distance: float) -> Contour:
        return offset(contour.ccw(), distance, corners="mitre")[0]

    return replace(
        drawing,
        outline=moved(drawing.outline, -kerf / 2),
        holes=tuple(moved(hole, kerf / 2) for hole in drawing.holes),
        drills=tuple(Drill(drill.centre, drill.diameter + kerf) for drill in drawing.drills),
    )
