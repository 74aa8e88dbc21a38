"""What cannot be written or does not measure back is refused, and the old set stands."""

from __future__ import annotations

import errno
import os
import resource
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.sets.make import make
from jigs.sets.rack import rack
from jigs.words.findings import Refused
from tests.jigs.making.sets import ROOT, changed, contents, leftovers, refusal, run

NOBODY = 65534


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
from tests.unset import jigs_alone
with jigs_alone():
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
    """Python, not yet through with its modules, would leave each longer one cut off in its cache."""
    before = contents(standing / "garland")
    limit = (20_000, 20_000)
    ended = run(
        changed(job_file),
        standing,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, limit),
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
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
    said = refusal(caught, "cannot-write")
    assert "taken" in said
    assert "Choose a folder, with --into" in said


def test_a_file_that_does_not_measure_back_is_an_error_and_nothing_is_swapped(
    job_file, standing, monkeypatch
):
    def out_by_a_hair(plan, lean):
        parts, notes = rack(plan, lean)
        at = next(i for i, part in enumerate(parts) if part.name == "sled-wedge")
        first, *others = parts[at].dimensions
        wrong = (replace(first, value=first.value + 0.0021), *others)
        return [*parts[:at], replace(parts[at], dimensions=wrong), *parts[at + 1 :]], notes

    before = contents(standing / "garland")
    monkeypatch.setattr("jigs.sets.rack.rack", out_by_a_hair)
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
