"""A printer that was measured: its files are drawn for it, measured back and dry-fitted as it makes them."""

import json
from pathlib import Path

import numpy as np
import pytest
import trimesh

from jigs.asked.jobfile import load
from jigs.dryfit.run import dry_fit
from jigs.sets.make import make
from tests.measured.garland import with_readings
from tests.measured.test_topics import SHRUNK


def across(folder: Path, part: str) -> np.ndarray:
    (file,) = folder.glob(f"print/*{part}.stl")
    return np.ptp(trimesh.load(file).vertices, axis=0)


@pytest.mark.parametrize("name", ["garland", "sorrel"])
def test_prints_are_drawn_larger_for_a_printer_that_shrinks_and_fit(tmp_path: Path, name: str):
    part = {"garland": "outer-gauge-finished", "sorrel": "wall-gauge"}[name]
    job = with_readings(tmp_path, "", name)
    before = make(load(job), tmp_path / "out")
    plain = across(before.folder, part), across(before.folder, "coupon")
    with_readings(tmp_path, SHRUNK, name)
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
    assert not dry_fit(load(job), made.folder, sheets=False).misfits
    assert part in dict(made.wrong) or part in dict(
        made.near
    )  # the one that is in the rack is as small as it was
