"""Sleds that stand in the rack, of this job or another: whether one serves the new set, glued as it is.

A sled that does the same serves another job, whatever its parts are. It is tried before it is named: the drawings of
its parts are put into the new set, and the dry fit has to pass.
"""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from math import degrees, inf
from pathlib import Path
from typing import TYPE_CHECKING, Any

from geometry.records import Record
from jigs.files.manifest import MANIFEST, as_written, read_manifest, sealed, sha256
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
from jigs.words.findings import Refused

if TYPE_CHECKING:
    from jigs.asked.job import Job


class Does(Record):
    """One thing that a sled does, in mm or degrees; an older one may do so much less, or more."""

    name: str
    value: float
    less: float
    more: float

    def serves(self, old: float) -> bool:
        """Whether an older sled that does this much will do."""
        return self.value - self.less <= old <= self.value + self.more


class Sled(Record):
    """Jigs that are glued and bolted into one."""

    name: str
    parts: tuple[str, ...]
    does: tuple[Does, ...]

    def row(self) -> dict[str, Any]:
        """As the manifest keeps it."""
        does = {item.name: round(item.value, 4) for item in self.does}
        return {"name": self.name, "parts": list(self.parts), "does": does}

    def is_done_by(self, row: Mapping[str, Any]) -> bool:
        """Whether an old sled's row of a manifest does all that this one does, with parts of the same names."""
        does = row.get("does", {})
        same = row.get("name") == self.name and set(row.get("parts", ())) == set(self.parts)
        return same and all(item.name in does and item.serves(does[item.name]) for item in self.does)


def serving(job: Job, sleds: Sequence[Sled], fresh: Path, root: Path) -> dict[str, str]:
    """By sled, the name of the job whose old sled serves as it stands: this job's own, else another's in `root`."""
    found: dict[str, str] = {}
    if not any(file.is_dir() for file in root.iterdir() if (file / MANIFEST).exists()):
        return found
    usual: set[tuple[str, str]] | None = None
    for sled in sleds:
        for folder, manifest in _others(root, job.name):
            if not any(sled.is_done_by(row) for row in manifest.get("sleds", [])):
                continue
            try:
                usual = _misfits(job, fresh) if usual is None else usual
                if _tried(job, sled, fresh, folder, manifest, usual):
                    found[sled.name] = folder.name
                    break
            except (OSError, Refused):  # what cannot be tried is not told of
                continue
    return found


def _others(root: Path, own: str) -> Iterator[tuple[Path, dict[str, Any]]]:
    """The sets in the root, this job's own first."""
    for folder in sorted(root.iterdir(), key=lambda file: (file.name != own, file.name)):
        manifest = read_manifest(folder) if folder.is_dir() and not folder.name.startswith(".") else None
        if manifest is not None:
            yield folder, manifest


def _tried(
    job: Job, sled: Sled, fresh: Path, folder: Path, manifest: Mapping[str, Any], usual: set[tuple[str, str]]
) -> bool:
    """Whether the new set passes its dry fit with the old sled's drawings in place of its own."""
    old = {entry["part"]: entry for entry in manifest["files"]}
    new = {entry["part"]: entry for entry in (read_manifest(fresh) or {"files": []})["files"]}
    pairs = [(old[name]["file"], new[name]["file"]) for name in sled.parts if name in old and name in new]
    if len(pairs) < len(sled.parts) or any(Path(a).suffix != Path(b).suffix for a, b in pairs):
        return False
    if not all(as_written(folder / old[name]["file"], old[name]["sha256"]) for name in sled.parts):
        return False
    with tempfile.TemporaryDirectory(prefix="jigs-") as name:
        trial = Path(shutil.copytree(fresh, Path(name) / job.name))
        content = json.loads((trial / MANIFEST).read_text("utf-8"))
        digests = {}
        for was, now in pairs:
            shutil.copyfile(folder / was, trial / now)
            digests[now] = sha256((trial / now).read_bytes())
        for entry in content["files"]:
            entry["sha256"] = digests.get(entry["file"], entry["sha256"])
        (trial / MANIFEST).write_text(sealed(content), "utf-8")
        return _misfits(job, trial) <= usual


def _misfits(job: Job, folder: Path) -> set[tuple[str, str]]:
    """What does not fit; whole sheets hold the new plates, and are no matter of an old sled."""
    from jigs.dryfit.torus import dry_fit

    found = dry_fit(job, folder, sheets=False)
    return {(check.where, check.what) for check in found.checks if not check.fits or check.fault}


ANGLE, STOP, HEIGHT = 0.015, 0.02, 0.3  # degrees; mm
TRAVEL = 4.0  # mm that a carriage goes beyond its nearest and its farthest stop


def sleds(plan: Plan, parts: list[Part]) -> list[Sled]:
    """The sleds of a plan, each with its parts."""
    return by_form(plan, torus=lambda own: _of_torus(own, parts), vessel=lambda own: _of_vessel(own, parts))


def _of_vessel(plan: VesselPlan, parts: list[Part]) -> list[Sled]:
    return [
        _named(
            sled.called, parts, "plan-angle-", f"-n{sled.segments}", _flat(plan, sled.layout, sled.segments)
        )
        for sled in plan.saws.sleds
    ]


def _of_torus(plan: TorusPlan, parts: list[Part]) -> list[Sled]:
    return [
        _named("sled for wedge rings", parts, "sled-", "", _rings(plan)),
        _named("segment carrier", parts, "segment-", "", _segments(plan)),
    ]


def _named(name: str, parts: list[Part], start: str, end: str, does: tuple[Does, ...]) -> Sled:
    """The wedges lie on the sled, and the stick that sets its rod: they are judged by themselves."""
    own = (part.name for part in parts if part.name.startswith(start) and part.name.endswith(end))
    return Sled(name, tuple(n for n in own if n not in ("sled-wedge", "sled-rod-stick")), does)


def _saw(plan: Plan, kerf: float) -> tuple[Does, ...]:
    saw = plan.job.workshop.saw
    return (
        Does("blade to the slot's far side", kerf + saw.slot_distance, STOP, STOP),
        Does("slot's width", saw.slot_width, STOP, STOP),
        Does("blade", saw.blade_diameter, 1.0, inf),
        Does("sheet", plan.job.workshop.boards.sheet, STOP, STOP),
    )


def _flat(plan: Plan, layout: PlanAngleLayout, segments: int) -> tuple[Does, ...]:
    nearest = layout.carriage.nearest if layout.carriage else layout.stop
    return (
        Does("segments", segments, 0.0, 0.0),
        Does("widest strip", layout.depth, STOP, inf),
        Does("thickest strip", layout.height, HEIGHT, HEIGHT),
        Does("nearest stop", nearest, inf, TRAVEL),
        Does("farthest stop", layout.stop, TRAVEL, inf),
        *_saw(plan, layout.kerf),
    )


def _rings(plan: TorusPlan) -> tuple[Does, ...]:
    sled = plan.sled
    return (
        Does("fence to blade", degrees(sled.cut.half_wedge), ANGLE, ANGLE),
        Does("stop from where fence and blade meet", sled.cut.stop, STOP, STOP),
        Does("height of a ring", sled.ring_height, HEIGHT, HEIGHT),
        Does("core opening", 2 * sled.core_apothem, HEIGHT, HEIGHT),
        *_saw(plan, sled.kerf),
    )


def _segments(plan: TorusPlan) -> tuple[Does, ...]:
    carrier = plan.cutting.carrier
    return (
        Does("blade tilt", degrees(carrier.cut.tilt), ANGLE, ANGLE),
        Does("stop", carrier.stop, STOP, STOP),
        Does("strip's thickness", carrier.cut.depth, HEIGHT, HEIGHT),
        Does("strip's width", carrier.width, HEIGHT, HEIGHT),
        *_saw(plan, carrier.cut.kerf),
    )
