"""What make promises: same in, same out; measured back; swapped in whole; the old set stands."""

from __future__ import annotations

import errno
import hashlib
import json
import os
import resource
import shutil
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest

from jigs.findings import Refused
from jigs.jobfile import load
from jigs.make import make
from jigs.rack import rack
from jigs.solve import solve
from jigs.swap import only_one

ROOT = Path(__file__).parents[2]
NOBODY = 65534
MOMENTS = 15


@pytest.fixture
def job_file(tmp_path):
    """The demo and its workshop, to be changed."""
    for name in ("garland.toml", "shed.toml"):
        shutil.copy(ROOT / "configs" / name, tmp_path)
    return tmp_path / "garland.toml"


@pytest.fixture(scope="module")
def made_once(tmp_path_factory):
    """The demo's set, made once; copied by the tests that change it."""
    root = tmp_path_factory.mktemp("once")
    make(load(ROOT / "configs" / "garland.toml"), root)
    return root / "garland"


@pytest.fixture
def standing(tmp_path, job_file, made_once):
    """A root folder in which the demo's set stands."""
    root = tmp_path / "out"
    shutil.copytree(made_once, root / "garland")
    return root


def changed(job_file: Path, old: str = "tube_diameter = 54", new: str = "tube_diameter = 55") -> Path:
    text = job_file.read_text("utf-8")
    assert old in text
    job_file.write_text(text.replace(old, new), "utf-8")
    return job_file


def digest(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest()


def manifest(folder: Path) -> dict:
    return json.loads((folder / "manifest.json").read_text("utf-8"))


def assert_whole(folder: Path) -> None:
    files = manifest(folder)["files"]
    assert len(files) > 20
    for entry in files:
        assert digest(folder / entry["file"]) == entry["sha256"], entry["file"]


def contents(folder: Path) -> dict[str, str]:
    return {file.relative_to(folder).as_posix(): digest(file) for file in folder.rglob("*") if file.is_file()}


def leftovers(root: Path) -> list[str]:
    return [file.name for file in root.iterdir() if file.name.endswith((".new", ".old"))]


def refusal(caught: pytest.ExceptionInfo[Refused], code: str) -> str:
    assert [finding.code for finding in caught.value.findings] == [code]
    assert all(finding.remedy for finding in caught.value.findings)
    return str(caught.value)


def command(job_file: Path, root: Path) -> list[str]:
    return [sys.executable, "-m", "jigs", "make", str(job_file), "--into", str(root)]


def run(job_file: Path, root: Path, **options) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command(job_file, root), cwd=ROOT, capture_output=True, text=True, check=False, timeout=60, **options
    )


def test_a_second_make_changes_nothing_and_says_so(job_file, standing):
    before = {file: file.stat().st_mtime_ns for file in (standing / "garland").rglob("*")}
    made = make(load(job_file), standing)
    assert made.unchanged
    assert len(made.files) == len(manifest(standing / "garland")["files"])
    assert {file: file.stat().st_mtime_ns for file in (standing / "garland").rglob("*")} == before


def test_the_same_job_gives_the_same_bytes_in_another_folder(job_file, tmp_path, made_once):
    make(load(job_file), tmp_path / "elsewhere" / "deep")
    assert contents(tmp_path / "elsewhere" / "deep" / "garland") == contents(made_once)


def test_the_same_bytes_whatever_the_hash_seed_and_the_clock(job_file, tmp_path, made_once):
    environment = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Etc/GMT+5", "LANG": "C"}
    assert run(job_file, tmp_path / "out", env=environment).returncode == 0
    assert contents(tmp_path / "out" / "garland") == contents(made_once)


def test_a_changed_job_is_remade(job_file, standing):
    before = contents(standing / "garland")
    made = make(load(changed(job_file)), standing)
    after = contents(standing / "garland")
    assert not made.unchanged
    assert_whole(standing / "garland")
    assert after["print/outer-gauge-finished.stl"] != before["print/outer-gauge-finished.stl"]
    assert make(load(job_file), standing).unchanged


def test_a_changed_workshop_file_is_noticed(job_file, standing):
    changed(job_file.parent / "shed.toml", "sheet = 11.9", "sheet = 12.1")
    assert not make(load(job_file), standing).unchanged
    assert_whole(standing / "garland")


@pytest.mark.parametrize("harm", [Path.unlink, lambda file: file.write_bytes(file.read_bytes()[:-1] + b"?")])
def test_a_removed_or_broken_file_is_remade(job_file, standing, harm):
    before = contents(standing / "garland")
    harm(standing / "garland" / "print" / "hole-gauge-finished.stl")
    assert not make(load(job_file), standing).unchanged
    assert contents(standing / "garland") == before


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"files": 3}', '{"files": [{}]}', '{"files": ["x"]}', "null"]
)
def test_a_manifest_that_cannot_be_read_is_made_again(job_file, standing, made_once, text):
    (standing / "garland" / "manifest.json").write_text(text, "utf-8")
    assert not make(load(job_file), standing).unchanged
    assert contents(standing / "garland") == contents(made_once)


def test_strangers_files_are_carried_over(job_file, standing):
    (standing / "garland" / "print" / "my notes.txt").write_text("glue on Tuesday", "utf-8")
    (standing / "garland" / "photos").mkdir()
    (standing / "garland" / "photos" / "rim.jpg").write_bytes(b"\xff\xd8")
    make(load(changed(job_file)), standing)
    assert (standing / "garland" / "print" / "my notes.txt").read_text("utf-8") == "glue on Tuesday"
    assert (standing / "garland" / "photos" / "rim.jpg").read_bytes() == b"\xff\xd8"
    assert_whole(standing / "garland")


def test_files_of_the_old_set_that_the_job_no_longer_makes_are_gone(job_file, standing):
    make(load(changed(job_file, 'stages = [3, 1, "finished"]', 'stages = [3, "finished"]')), standing)
    assert not (standing / "garland" / "print" / "outer-gauge-stage-2.stl").exists()
    assert (standing / "garland" / "print" / "outer-gauge-stage-1.stl").exists()


def test_killed_at_any_moment_one_whole_set_stands_and_the_next_make_succeeds(job_file, standing, made_once):
    begun = time.monotonic()
    assert run(job_file, job_file.parent / "timed").returncode == 0
    whole = time.monotonic() - begun
    killed = 0
    for moment in range(MOMENTS):
        changed(job_file, "tube_diameter = ", f"tube_diameter = 54.{moment:02d} # ")
        process = subprocess.Popen(command(job_file, standing), cwd=ROOT, stdout=-3, stderr=-3)
        time.sleep(whole * (0.25 + 0.8 * moment / MOMENTS))
        process.send_signal(signal.SIGKILL)
        killed += process.wait() == -signal.SIGKILL
        assert_whole(standing / "garland")
    assert killed >= MOMENTS // 3
    make(load(job_file), standing)
    assert_whole(standing / "garland")
    assert leftovers(standing) == []


def test_a_set_moved_aside_by_a_killed_run_comes_back(job_file, standing):
    """Where folders cannot be exchanged in one step, a kill may fall between two renames."""
    (standing / "garland").rename(standing / ".garland.old")
    (standing / ".garland.old" / "mine.txt").write_text("keep", "utf-8")
    make(load(job_file), standing)
    assert_whole(standing / "garland")
    assert (standing / "garland" / "mine.txt").read_text("utf-8") == "keep"
    assert leftovers(standing) == []


def test_without_an_exchange_in_one_step_the_set_is_swapped_by_way_of_another_name(
    job_file, standing, monkeypatch
):
    monkeypatch.setattr("jigs.swap._exchanged", lambda one, other: False)
    make(load(changed(job_file)), standing)
    assert_whole(standing / "garland")
    assert leftovers(standing) == []


def test_when_one_make_is_at_work_another_is_refused(job_file, standing):
    before = contents(standing / "garland")
    with only_one(standing, "garland"), pytest.raises(Refused) as caught:
        make(load(changed(job_file)), standing)
    assert "another make" in refusal(caught, "busy")
    assert contents(standing / "garland") == before
    assert not make(load(job_file), standing).unchanged


def test_two_at_once_leave_one_whole_set(job_file, standing):
    changed(job_file)
    both = [
        subprocess.Popen(
            command(job_file, standing), cwd=ROOT, stdout=-1, stderr=subprocess.STDOUT, text=True
        )
        for _ in range(2)
    ]
    said = [process.communicate(timeout=60)[0] for process in both]
    codes = sorted(process.returncode for process in both)
    assert codes in ([0, 0], [0, 1])
    assert all("another make" in text for process, text in zip(both, said, strict=True) if process.returncode)
    assert_whole(standing / "garland")


@pytest.fixture
def open_folder():
    """A folder that any user may enter; pytest's own are private."""
    import tempfile

    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    for name in ("garland.toml", "shed.toml"):
        shutil.copy(ROOT / "configs" / name, folder)
        (folder / name).chmod(0o644)
    yield folder
    for place in [folder, *folder.rglob("*")]:
        if place.is_dir():
            place.chmod(0o755)
    shutil.rmtree(folder)


AS_NOBODY = """
import os, sys
from jigs.cli import main
main(["make", sys.argv[1], "--into", sys.argv[2]])  # loads all it needs, which another user may not read
if os.getuid() == 0:
    os.setuid(int(sys.argv[4]))  # no folder refuses root
sys.exit(main(["make", sys.argv[1], "--into", sys.argv[3]]))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="folders are not locked by modes there")
def test_a_read_only_folder_is_refused_with_its_name_and_a_way_out(open_folder, made_once):
    root = open_folder / "out"
    shutil.copytree(made_once, root / "garland")
    before = contents(root / "garland")
    for folder in [root, root / "garland", *(d for d in root.rglob("*") if d.is_dir())]:
        folder.chmod(0o555)
    job = changed(open_folder / "garland.toml")
    arguments = [str(job), str(open_folder / "elsewhere"), str(root), str(NOBODY)]
    ended = subprocess.run(
        [sys.executable, "-c", AS_NOBODY, *arguments],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert ended.returncode == 1, ended.stderr
    assert "Traceback" not in ended.stderr
    assert str(root) in ended.stderr
    assert "--into" in ended.stderr
    assert "old set stands" in ended.stderr
    assert contents(root / "garland") == before


def fill_the_disk(monkeypatch, free: int) -> None:
    """Let `free` files be written, then no more."""
    written = []
    original = Path.write_bytes

    def write(path, data):
        written.append(path)
        if len(written) > free:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
        return original(path, data)

    monkeypatch.setattr(Path, "write_bytes", write)


@pytest.mark.parametrize("free", [0, 3, 12])
def test_a_full_disk_is_refused_and_the_old_set_stands(job_file, standing, monkeypatch, free):
    before = contents(standing / "garland")
    fill_the_disk(monkeypatch, free)
    with pytest.raises(Refused) as caught:
        make(load(changed(job_file)), standing)
    said = refusal(caught, "cannot-write")
    assert os.strerror(errno.ENOSPC) in said
    assert "old set stands" in said
    assert contents(standing / "garland") == before
    assert leftovers(standing) == []


def test_a_limit_on_the_size_of_files_is_refused_without_a_traceback(job_file, standing):
    before = contents(standing / "garland")
    limit = (20_000, 20_000)
    ended = run(
        changed(job_file), standing, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, limit)
    )
    assert ended.returncode == 1
    assert "Traceback" not in ended.stderr
    assert "old set stands" in ended.stderr
    assert contents(standing / "garland") == before
    assert leftovers(standing) == []


def test_a_file_where_the_folder_should_be_is_refused(job_file, tmp_path):
    (tmp_path / "taken").write_text("not a folder", "utf-8")
    with pytest.raises(Refused) as caught:
        make(load(job_file), tmp_path / "taken")
    assert "taken" in refusal(caught, "cannot-write")


def test_a_file_that_does_not_measure_back_is_an_error_and_nothing_is_swapped(
    job_file, standing, monkeypatch
):
    def out_by_a_hair(plan):
        parts, notes = rack(plan)
        at = next(i for i, part in enumerate(parts) if part.name == "sled-wedge")
        first, *others = parts[at].dimensions
        wrong = (replace(first, value=first.value + 0.0021), *others)
        return [*parts[:at], replace(parts[at], dimensions=wrong), *parts[at + 1 :]], notes

    before = contents(standing / "garland")
    monkeypatch.setattr("jigs.rack.rack", out_by_a_hair)
    with pytest.raises(Refused) as caught:
        make(load(changed(job_file)), standing)
    assert "sled-wedge" in refusal(caught, "does-not-measure")
    assert contents(standing / "garland") == before
    assert leftovers(standing) == []


def test_a_job_that_is_refused_leaves_the_old_set(job_file, standing):
    before = contents(standing / "garland")
    with pytest.raises(Refused):
        make(load(changed(job_file, "core_opening = 20", "core_opening = 50")), standing)
    assert contents(standing / "garland") == before


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
    plain, grown = (outline_rows(made / "cut" / f"{name}.dxf") for made in (made_once, made_with_kerf))
    assert len(plain) == len(grown)
    starts = zip(plain, [*plain[1:], plain[0]], strict=True)
    walls = [(a, b) for a, b in starts if a[2] == 0]
    for (x0, y0, _), (x1, y1, _) in walls:
        size = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        off = [((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / size for x, y, _ in grown]
        assert min(abs(distance + 0.15) for distance in off) < 1e-5


def test_with_a_kerf_holes_are_smaller_by_it_and_all_still_measures_back(made_once, made_with_kerf):
    def diameters(folder):
        holes = ezdxf.readfile(folder / "cut" / "support-board-layer.dxf").modelspace().query("CIRCLE")
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
