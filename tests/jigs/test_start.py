"""The package `geometry` may be another's: that is seen before anything is worked out, as it would be installed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import geometry
from jigs import __version__
from jigs.start import foreign_geometry
from tests.jigs.job_texts import ROOT


@pytest.fixture(scope="module")
def installed(tmp_path_factory) -> Path:
    """Both packages as an installer lays them, and nothing else of the project."""
    site = tmp_path_factory.mktemp("site")
    for package in ("geometry", "jigs"):
        shutil.copytree(ROOT / package, site / package, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / "configs", site / "configs")
    return site


def check(site: Path, folder: Path) -> subprocess.CompletedProcess[str]:
    """`jigs check` of the demo from a folder, with the packages of a site."""
    command = [sys.executable, "-m", "jigs", "check", str(site / "configs" / "garland.toml")]
    found = {**os.environ, "PYTHONPATH": str(site), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        command, cwd=folder, env=found, capture_output=True, text=True, check=False, timeout=120
    )


def assert_refused(ended: subprocess.CompletedProcess[str], *named: str) -> None:
    assert ended.returncode == 1
    assert ended.stdout == ""
    assert ended.stderr.startswith("refused: the package geometry")
    assert "Traceback" not in ended.stderr
    assert all(name in ended.stderr for name in (*named, "virtual environment of its own"))


def test_our_own_is_taken(installed, tmp_path) -> None:
    assert foreign_geometry() == ""
    ended = check(installed, tmp_path)
    assert (ended.returncode, ended.stderr) == (0, "")


def test_the_mark_names_this_version() -> None:
    assert f"turning-jigs {__version__}" == geometry.PART_OF


OTHERS = {
    "another distribution's": '"""Points and lines."""\n__version__ = "3.1"\n',
    "one of another version": 'PART_OF = "turning-jigs 0.0.1"\n',
    "one that cannot be imported": "import something_that_is_not_there\n",
}


@pytest.mark.parametrize("text", OTHERS.values(), ids=OTHERS)
def test_an_overwritten_package_is_refused(installed, tmp_path, text) -> None:
    own = installed / "geometry" / "__init__.py"
    kept = own.read_text("utf-8")
    own.write_text(text, "utf-8")
    try:
        assert_refused(check(installed, tmp_path))
    finally:
        own.write_text(kept, "utf-8")


def test_what_an_uninstalled_one_leaves_is_refused(installed, tmp_path) -> None:
    own = installed / "geometry" / "__init__.py"
    kept = own.read_text("utf-8")
    own.unlink()
    try:
        assert_refused(check(installed, tmp_path))  # by no mark, or by its place where another one is found
    finally:
        own.write_text(kept, "utf-8")


def test_a_file_of_that_name_where_one_stands_is_refused_by_its_place(installed, tmp_path) -> None:
    (tmp_path / "geometry.py").write_text(f'PART_OF = "turning-jigs {__version__}"\n', "utf-8")
    assert_refused(check(installed, tmp_path), str(tmp_path / "geometry.py"))
