"""A printer that was measured: its files are drawn for it, measured back and dry-fitted as it makes them."""

import json
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
import trimesh

from jigs.asked.jobfile import load
from jigs.dryfit.torus import dry_fit
from jigs.files.written import prove_files
from jigs.sets.make import make
from jigs.sets.rack import prove
from tests.measured.garland import with_readings
from tests.measured.test_topics import SHRUNK
from tests.unset import jigs_made

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"


def across(folder: Path, part: str) -> np.ndarray:
    (file,) = folder.glob(f"print/*{part}.stl")
    return np.ptp(trimesh.load(file).vertices, axis=0)


def on_a_bed(folder: Path, part: str) -> np.ndarray:
    """Across the part's body in the 3MF that holds it."""
    for file in folder.glob("print/*.3mf"):
        model = ElementTree.fromstring(zipfile.ZipFile(file).read("3D/3dmodel.model"))
        for body in model.iter(f"{CORE}object"):
            if body.get("name", "").endswith(part):
                points = [[float(vertex.get(axis)) for axis in "xy"] for vertex in body.iter(f"{CORE}vertex")]
                return np.ptp(np.array(points), axis=0)
    raise AssertionError(f"{part} is on no bed")


def test_prints_are_drawn_larger_for_a_printer_that_shrinks_and_fit(tmp_path: Path):
    part = "outer-gauge-finished"
    job = with_readings(tmp_path, "")
    before = jigs_made(load(job), tmp_path / "out", lettered=True)
    plain = across(before, part), across(before, "coupon")
    with_readings(tmp_path, SHRUNK)
    made = make(load(job), tmp_path / "out")
    after = across(made.folder, part), across(made.folder, "coupon")
    row = next(
        row for row in json.loads((made.folder / "manifest.json").read_text())["files"] if row["part"] == part
    )
    outside, _, scale = row["drawn"]
    assert outside < 0
    assert scale < 1
    # within what a sharp corner moves less
    assert after[0][:2] == pytest.approx((plain[0][:2] - outside) / scale, abs=0.02)
    assert after[1] == pytest.approx(plain[1])  # the coupon shows what the printer does
    assert on_a_bed(made.folder, part) == pytest.approx(after[0][:2], abs=1e-3)
    assert not dry_fit(load(job), made.folder, sheets=False).misfits
    assert part in dict(made.wrong) or part in dict(
        made.near
    )  # the one that is in the rack is as small as it was


def test_gauges_with_thinned_edges_measure_back_too(tmp_path: Path):
    job = load(with_readings(tmp_path, SHRUNK, "sorrel"))
    parts = [part for part in prove(job).parts if part.process == "print"]
    assert any(part.bevel for part in parts)
    prove_files(parts, job)
