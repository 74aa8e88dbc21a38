"""The files of a set: told by the manifest, in their folders, drawn for a kerf."""

from __future__ import annotations

import shutil
from pathlib import Path

import ezdxf
import pytest

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.sets.make import make
from jigs.sets.rack import rack
from tests.jigs.making.sets import ROOT, changed, contents, digest, manifest
from tests.jigs.set_files import in_set

BESIDES = True


def test_the_manifest_names_every_file_with_what_it_is_and_how_it_measures(job_file, made_once):
    parts = {part.name: part for part in rack(solve(load(job_file)))[0]}
    entries = {entry["part"]: entry for entry in manifest(made_once)["files"]}
    on_disk = {file for file in contents(made_once) if file != "manifest.json"}
    extras = {row["file"] for row in manifest(made_once)["extras"]}
    assert {entry["file"] for entry in entries.values()} | extras == on_disk
    assert entries.keys() == parts.keys()
    for name, entry in entries.items():
        part = parts[name]
        for field in ("family", "purpose", "process", "material", "quantity"):
            assert entry[field] == getattr(part, field), name
        assert entry["sha256"] == digest(made_once / entry["file"])
        nominal = {d.name: (d.value, d.unit) for d in part.dimensions}
        drawn = [d for d in entry["dimensions"] if d["measured"] is not None]
        assert {d["name"] for d in drawn} >= nominal.keys() - {"thickness"}, name
        for found in drawn:
            value, unit = nominal[found["name"]]
            assert (found["value"], found["unit"]) == (pytest.approx(value, abs=1e-6), unit)
            assert found["measured"] == pytest.approx(value, abs=0.01 if unit == "mm" else 0.001)


def test_each_file_lies_in_the_folder_of_its_process(made_once):
    for entry in manifest(made_once)["files"]:
        folder, _, name = entry["file"].partition("/")
        assert folder == entry["process"]
        assert name.rpartition(".")[2] == ("stl" if folder == "print" else "dxf")


@pytest.fixture(scope="module")
def made_with_kerf(tmp_path_factory):
    root = tmp_path_factory.mktemp("kerf")
    for name in ("garland.toml", "shed.toml"):
        shutil.copy(ROOT / "configs" / name, root)
    shed = changed(root / "shed.toml", "[cutter]\n", "[cutter]\nkerf = 0.3\n")
    make(load(root / "garland.toml"), root)
    assert "kerf = 0.3" in shed.read_text("utf-8")
    return root / "garland"


def outline_rows(file: Path) -> list[tuple[float, float, float]]:
    """The outline: the largest closed polyline."""
    lines = [
        line for line in ezdxf.readfile(file).modelspace().query("LWPOLYLINE") if line.dxf.layer == "cut"
    ]
    rows = [line.get_points("xyb") for line in lines if line.closed]
    return max(rows, key=lambda points: max(p[0] for p in points) - min(p[0] for p in points))


@pytest.mark.parametrize("name", ["joint-plate", "sled-gusset", "sled-base", "sled-handle", "tilt-plate"])
def test_with_a_kerf_the_outline_runs_half_of_it_outside(made_once, made_with_kerf, name):
    plain, grown = (outline_rows(in_set(made, f"cut/{name}.dxf")) for made in (made_once, made_with_kerf))
    assert len(plain) == len(grown)
    starts = zip(plain, [*plain[1:], plain[0]], strict=True)
    walls = [(a, b) for a, b in starts if a[2] == 0]
    for (x0, y0, _), (x1, y1, _) in walls:
        size = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        off = [((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / size for x, y, _ in grown]
        assert min(abs(distance + 0.15) for distance in off) < 1e-5


def test_with_a_kerf_holes_are_smaller_by_it_and_all_still_measures_back(made_once, made_with_kerf):
    def diameters(folder):
        holes = (
            ezdxf.readfile(in_set(folder, "cut/support-board-layer.dxf"))
            .modelspace()
            .query('CIRCLE[layer=="drill"]')
        )
        return sorted(2 * hole.dxf.radius for hole in holes)

    plain, cut = diameters(made_once), diameters(made_with_kerf)
    assert [b - a for a, b in zip(cut, plain, strict=True)] == pytest.approx([0.3] * len(plain))
    for entry in manifest(made_with_kerf)["files"]:
        assert all(d["measured"] == pytest.approx(d["value"], abs=0.01) for d in entry["dimensions"])


def test_a_kerf_leaves_printed_and_turned_files_alone(made_once, made_with_kerf):
    plain, cut = contents(made_once), contents(made_with_kerf)
    same = {file for file in plain if plain[file] == cut.get(file)}
    assert {file for file in plain if file.startswith(("print/", "turn/"))} <= same
    assert not {file for file in same if file.startswith("cut/")}


def test_a_table_that_was_changed_by_hand_hinders_no_comparison(job_file, standing):
    in_set(standing / "garland", "tables/settings.csv").write_text("step;setting\n1;thickness\n", "utf-8")
    made = make(load(changed(job_file)), standing)
    assert made.work.compared
    assert made.work.settings
