"""A set that is not whole does not fit; a dry fit gives its verdict on any disk, and reads no set in the making."""

from __future__ import annotations

import errno
import os
import shutil
from pathlib import Path

import ezdxf
import pytest
from stl import mesh as stl_mesh

from jigs.cli import main
from jigs.dryfit.torus import dry_fit
from jigs.files.manifest import DRY_FIT, read_manifest
from jigs.sets.swap import none_making, only_one
from jigs.words.file_names import of_job
from jigs.words.findings import Refused
from tests.jigs.set_files import in_set
from tests.sweep.remembered import Remembered

CONFIGS = Path(__file__).parents[2] / "configs"


@pytest.fixture(scope="module")
def sorrel(set_of):
    return set_of("sorrel")


@pytest.fixture(scope="module")
def remembered(sorrel):
    return Remembered(*sorrel, sheets=False)


@pytest.mark.parametrize(
    "name",
    [
        "print/wall-gauge.stl",
        "print/inside-gauge-stage-1.stl",
        "print/coupon.stl",
        "sheets/sheet-11.9mm-1.dxf",
        "cut/plan-angle-exit-block-n12.dxf",
        "tables/settings.csv",
    ],
)
def test_a_file_that_is_gone_does_not_fit(name, sorrel, remembered) -> None:
    job, folder = sorrel
    aside = folder.parent / "aside"
    in_set(folder, name).rename(aside)
    try:
        found = dry_fit(job, folder) if name.startswith("sheets") else remembered.again()
    finally:
        aside.rename(in_set(folder, name))
    assert of_job(job.name, name) in [check.where for check in found.misfits]
    assert not found.faults


def test_a_drawing_that_says_another_unit_does_not_fit(sorrel, remembered) -> None:
    _, folder = sorrel
    file = in_set(folder, "cut/gap-gauge-foot.dxf")
    content = file.read_bytes()
    document = ezdxf.readfile(file)
    document.header["$INSUNITS"] = 1  # inches
    try:
        document.saveas(file)
        found = remembered.again()
    finally:
        file.write_bytes(content)
    assert any("millimetres" in check.what for check in found.misfits)


def test_every_file_of_the_manifest_is_looked_for(remembered) -> None:
    listed = {row["file"] for row in (read_manifest(remembered.folder) or {})["files"]}
    assert listed <= {check.where for check in remembered.first.checks}


def test_on_a_disk_that_takes_no_file_the_verdict_is_given_all_the_same(
    sorrel, tmp_path, capsys, monkeypatch
) -> None:
    job, into = CONFIGS / "sorrel.toml", ["--into", str(tmp_path)]
    shutil.copytree(sorrel[1], tmp_path / "sorrel")
    usual = Path.open

    def read_only(self: Path, mode: str = "r", *args: object, **kwargs: object):
        if set(mode) & set("wax+"):
            raise OSError(errno.EROFS, os.strerror(errno.EROFS), str(self))
        return usual(self, mode, *args, **kwargs)

    def no_file(prefix: str, dir: Path) -> None:
        raise OSError(errno.EROFS, os.strerror(errno.EROFS), f"{dir}/{prefix}")

    monkeypatch.setattr(Path, "open", read_only)
    monkeypatch.setattr("tempfile.mkstemp", no_file)
    assert main(["dry-fit", str(job), *into]) == 0
    told = capsys.readouterr()
    assert "everything fits" in told.out
    assert "no picture" in told.out
    assert not (tmp_path / "sorrel" / DRY_FIT).exists()
    assert not (tmp_path / ".sorrel.lock").exists()


def test_no_dry_fit_reads_a_set_that_is_being_made_and_no_make_swaps_one_that_is_read(tmp_path) -> None:
    with only_one(tmp_path, "set"), pytest.raises(Refused, match="at work"), none_making(tmp_path, "set"):
        pass
    reading = none_making(tmp_path, "set"), none_making(tmp_path, "set")
    with reading[0], reading[1], pytest.raises(Refused, match="at work"), only_one(tmp_path, "set"):
        pass
    with only_one(tmp_path, "set"):
        pass


def test_a_sheets_coupon_whose_notch_is_not_as_lettered_does_not_fit(sorrel, remembered) -> None:
    _, folder = sorrel
    file = in_set(folder, "cut/sheet-coupon.dxf")
    content = file.read_bytes()
    document = ezdxf.readfile(file)
    (outline,) = document.modelspace().query("LWPOLYLINE").filter(lambda one: len(one) > 20)
    points = outline.get_points()
    wide = min(points, key=lambda at: (-at[1], at[0] if at[0] > 20 else 999))
    outline.set_points([(x + 0.05 * (x == wide[0]), *rest) for x, *rest in points])
    try:
        document.saveas(file)
        assert "sheet-coupon" in [check.where for check in remembered.again().misfits]
    finally:
        file.write_bytes(content)


@pytest.mark.parametrize("scale", [1.002, 0.998])
def test_a_coupon_that_is_not_as_large_as_it_is_lettered_does_not_fit(scale, sorrel, remembered) -> None:
    _, folder = sorrel
    file = in_set(folder, "print/coupon.stl")
    content = file.read_bytes()
    plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
    plate.vectors[:, :, :2] *= scale
    try:
        plate.save(str(file))
        assert "coupon" in [check.where for check in remembered.again().misfits]
    finally:
        file.write_bytes(content)
