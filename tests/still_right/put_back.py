"""What a make says of the old jigs, and what the dry fit of the new set says when they are put into it."""

from __future__ import annotations

import io
import json
import random
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from unittest import mock

import ezdxf
from stl import mesh

from jigs.asked.jobfile import load
from jigs.dryfit.fit import DryFit
from jigs.files.formats import FORMATS
from jigs.files.manifest import MANIFEST, read_manifest, sealed, sha256
from jigs.parts.part import Part, Point
from jigs.sets.changes import laid_on
from jigs.sets.made import Made
from jigs.sets.make import make
from jigs.sets.rack import rack
from jigs.words.findings import Refused
from tests.still_right.changed_jobs import CONFIGS, Change, source
from tests.sweep.remembered import Remembered

WHOLE = "is kept whole"  # said of a jig that is right as a part of its sled


@dataclass
class Tally:
    """Of some changes: how many jigs were called what, and what the dry fit said of those put back."""

    made: int = 0
    refused: int = 0
    untouched: int = 0  # the very same file
    right: int = 0  # another file, and called still right
    right_fails: list[str] = field(default_factory=list)
    wrong: int = 0
    wrong_by_a_size: int = 0  # put back, and the dry fit passes: only a working dimension or edge is out
    wrong_tried: int = 0

    def told(self) -> str:
        return (
            f"{self.made} changes made, {self.refused} refused; old jigs: {self.untouched} the same file, "
            f"{self.right} changed and called right, {len(self.right_fails)} of these fail the dry fit; {self.wrong} "
            f"called wrong, {self.wrong_tried} of these put back: {self.wrong_tried - self.wrong_by_a_size} fail the "
            f"dry fit, {self.wrong_by_a_size} have a working dimension or edge out"
        )


def try_change(change: Change, tally: Tally, draw: random.Random, tried: int = 3) -> Made | None:
    """Make the job and the changed job; put all right jigs and `tried` of the wrong ones into the new set.

    None where the changed job is refused.
    """
    with tempfile.TemporaryDirectory(prefix="still-right-") as name:
        root = Path(name)
        for file in (*CONFIGS.glob("*.toml"), *CONFIGS.glob("*.dxf")):
            shutil.copy(file, root)
        file = root / f"{change.job}.toml"
        old = shutil.copytree(old_set(change.job), root / "old" / change.job)
        shutil.copytree(old, root / "new" / change.job)
        file.write_text(change.text, "utf-8")
        try:
            job = load(file)
            made, parts = _made_lean(job, root / "new")
        except Refused:
            tally.refused += 1
            return None
        tally.made += 1
        bench = Bench(job, old, made.folder, parts)
        wrong = dict(made.wrong)
        near = {name: WHOLE in told for name, told in made.near if name in bench.new}
        there = [name for name in wrong if name in bench.new and bench.same_kind(name)]
        tally.untouched += len(made.right)
        tally.right += len(near)
        tally.wrong += len(there)
        if bench.fails(near):
            alone = [{name: False} for name, whole in near.items() if not whole]
            for some in (*alone, {name: True for name, whole in near.items() if whole}):
                names = " ".join(some)
                tally.right_fails += [f"{change.told}: {names}: {told}" for told in bench.fails(some)]
        for name in draw.sample(there, min(tried, len(there))):
            assert wrong[name], name
            tally.wrong_tried += 1
            tally.wrong_by_a_size += not bench.fails({name: False})
        return made


_made: dict[str, Path] = {}


def old_set(job: str) -> Path:
    """The set of an example as it is, made once; it is left behind with the process."""
    if job not in _made:
        root = Path(tempfile.mkdtemp(prefix="still-right-old-"))
        for file in (*CONFIGS.glob("*.toml"), *CONFIGS.glob("*.dxf")):
            shutil.copy(file, root)
        (root / f"{job}.toml").write_text(source(job), "utf-8")
        _made[job] = make(load(root / f"{job}.toml"), root / "made").folder
    return _made[job]


def _made_lean(job: Any, root: Path) -> tuple[Made, list[Part]]:
    """A make that leaves out sheets, tables, paper and the shop book, half of its time; and the parts that it drew."""
    drawn: list[list[Part]] = []

    def noted(plan: Any, lean: bool = False) -> Any:
        found = rack(plan, lean)
        drawn.append(found[0])
        return found

    with (
        mock.patch("jigs.sets.extras.write_extras", return_value=[]),
        mock.patch("jigs.sets.shop_book.shop_book", return_value=dict),
        mock.patch("jigs.sets.rack.rack", noted),
    ):
        return make(job, root), drawn[0]  # later ones are of values tried to be kept


class Bench:
    """A new set into which old jigs are put."""

    def __init__(self, job: Any, old: Path, new: Path, parts: list[Part]) -> None:
        self.job, self.old_folder, self.folder = job, old, new
        self.old, self.new = (
            {entry["part"]: entry for entry in (read_manifest(folder) or {})["files"]}
            for folder in (old, new)
        )
        self.parts: dict[str, Part] = {part.name: part for part in parts}
        self._fit = Remembered(job, new, sheets=False)  # they hold the new plates, no matter of the rack
        self.bad = set(_told(self._fit.first))

    def same_kind(self, name: str) -> bool:
        return bool(self.old[name]["file"] == self.new[name]["file"])

    def fails(self, names: Mapping[str, bool]) -> list[str]:
        """What no longer fits when the old jigs of these names are in the set; they are taken out again.

        Those that are parts of a whole are put in as they were drawn, all others where the new one lies.
        """
        kept = {name: (self.folder / self.new[name]["file"]).read_bytes() for name in names}
        self._put({name: self._drawn(name) if whole else self._laid(name) for name, whole in names.items()})
        found = [told for told in _told(self._fit.again()) if told not in self.bad]
        self._put(kept)
        return found

    def _put(self, contents: Mapping[str, bytes]) -> None:
        manifest = json.loads((self.folder / MANIFEST).read_text("utf-8"))
        for row in manifest["files"]:
            if row["part"] in contents:
                (self.folder / row["file"]).write_bytes(contents[row["part"]])
                row["sha256"] = sha256(contents[row["part"]])
        (self.folder / MANIFEST).write_text(sealed(manifest), "utf-8")

    def _drawn(self, name: str) -> bytes:
        return (self.old_folder / self.old[name]["file"]).read_bytes()

    def _laid(self, name: str) -> bytes:
        """The old file, moved so that the plate lies where the new one lies: a drawing's origin is no part of it."""
        entry = self.old[name]
        content, form = self._drawn(name), FORMATS[entry["process"]]
        shift = laid_on(self.parts[name], form.read(io.BytesIO(content), entry["kerf"]))
        return content if max(map(abs, shift)) < 1e-6 else _moved(content, form.suffix, shift)


def _told(found: DryFit) -> list[str]:
    """What does not fit."""
    return [f"{c.where}, {c.what}: {c.value:.3f}" for c in found.checks if not c.fits or c.fault]


def _moved(content: bytes, suffix: str, shift: Point) -> bytes:
    if suffix == "dxf":
        drawing = ezdxf.read(io.StringIO(content.decode()))
        for entity in drawing.modelspace():
            entity.translate(*shift, 0)
        text = io.StringIO()
        drawing.write(text)
        return text.getvalue().encode()
    if suffix == "stl":
        solid = mesh.Mesh.from_file("plate", fh=io.BytesIO(content))
        solid.vectors[:, :, :2] += shift
        stream = io.BytesIO()
        solid.save("plate", fh=stream)
        return stream.getvalue()
    return content


def all_of(tally: Tally) -> Iterator[str]:
    yield tally.told()
    yield from tally.right_fails
