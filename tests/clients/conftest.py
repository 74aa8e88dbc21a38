"""Tests in other programs skip where the program is absent, or fail there if JIGS_NO_SKIP=1."""

import os
import re
import shutil
import subprocess

import pytest

from jigs.files.stl import write_stl
from tests.examples import parts_of_example


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if report.skipped and os.environ.get("JIGS_NO_SKIP") == "1":
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was skipped, which JIGS_NO_SKIP=1 forbids: {call.excinfo.value}"
    return report


@pytest.fixture(scope="session")
def run():
    """Run a program; skip where it is absent, fail where it fails, return what it says."""

    def run(program, *arguments):
        if shutil.which(program) is None:
            pytest.skip(f"{program} is not installed")
        environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
        done = subprocess.run(
            [program, *map(str, arguments)], env=environment, stdin=subprocess.DEVNULL, timeout=120,
            capture_output=True, text=True, errors="replace",
        )  # fmt: skip
        assert done.returncode == 0, f"{program} {arguments}: {done.stdout}{done.stderr}"
        return done.stdout

    return run


@pytest.fixture(scope="session")
def prusa(run, tmp_path_factory):
    """Run PrusaSlicer with settings of nobody's."""
    settings = tmp_path_factory.mktemp("settings")
    return lambda *arguments: run("prusa-slicer", "--datadir", settings, *arguments)


@pytest.fixture(scope="session")
def infos(prusa):
    """What --info says of each body in each of some files, by file: all asked at once."""

    def infos(files):
        found = {file: [] for file in files}
        by_name = {file.name: bodies for file, bodies in found.items()}
        for name, lines in re.findall(r"^\[(\S+)\]\n([^\[]*)", prusa("--info", *files), re.MULTILINE):
            by_name[name].append(dict(re.findall(r"^(\w+) = +(\S+)", lines, re.MULTILINE)))
        return found

    return infos


@pytest.fixture
def sliced(prusa, tmp_path):
    """The code that PrusaSlicer makes of each file, on the bed of every job in configs/, seams where they cost little.

    All in one run: a start takes longer than a plate's few layers. A 3MF goes alone: among others its code has another
    name.
    """

    def sliced(files, *choices):
        base = ("--skirts", 0, "--seam-position", "rear", "--bed-shape", "0x0,220x0,220x220,0x220")
        into = tmp_path if len(files) > 1 else tmp_path / f"{files[0].stem}.gcode"
        prusa("--export-gcode", *base, *choices, "-o", into, *files)
        return {file: (tmp_path / f"{file.stem}.gcode").read_text() for file in files}

    return sliced


@pytest.fixture
def torn(tmp_path):
    """A printed part, and its mesh in a file without the last triangle: what a mesh test must not let pass."""
    part, file = (
        next(part for part in parts_of_example("garland") if part.process == "print"),
        tmp_path / "torn.stl",
    )
    write_stl(part, file)
    content = file.read_bytes()
    count = int.from_bytes(content[80:84], "little") - 1
    file.write_bytes(content[:80] + count.to_bytes(4, "little") + content[84:-50])
    return part, file
