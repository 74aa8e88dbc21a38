"""A source distribution carries what its pages point to, and an installed one every module."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGES = ("README.md", "DEVELOPERS.md", "outputs/README.md")
KEPT = ("geometry", "jigs", "configs", "tests", ".ci")
LINK = re.compile(r"\]\(([^)#:]+)\)")
BUILD = (
    "from hatchling.build import build_sdist, build_wheel; print(build_sdist('dist'), build_wheel('dist'))"
)


@pytest.fixture(scope="module")
def built(tmp_path_factory) -> tuple[Path, Path]:
    """A source distribution and a wheel, built from a copy of this tree."""
    tree = tmp_path_factory.mktemp("tree")
    for name in KEPT:
        shutil.copytree(ROOT / name, tree / name, ignore=shutil.ignore_patterns("__pycache__"))
    (tree / "outputs").mkdir()
    for file in (*ROOT.iterdir(), *(ROOT / "outputs").iterdir()):  # without the jobs that were made there
        if file.is_file() and file.name != ".git":
            shutil.copy(file, tree / file.relative_to(ROOT))
    command = [sys.executable, "-c", BUILD]
    told = subprocess.run(command, cwd=tree, capture_output=True, text=True, check=True, timeout=120)
    sdist, wheel = told.stdout.split()
    return tree / "dist" / sdist, tree / "dist" / wheel


@pytest.fixture(scope="module")
def carried(built) -> set[str]:
    """Names of the files in the source distribution."""
    with tarfile.open(built[0]) as archive:
        return {name.partition("/")[2] for name in archive.getnames()}


@pytest.mark.parametrize("page", PAGES)
def test_every_relative_link_of_a_page_leads_somewhere(carried, page) -> None:
    links = LINK.findall((ROOT / page).read_text("utf-8"))
    missing = [link for link in links if str((Path(page).parent / link).as_posix()) not in carried]
    assert page in carried
    assert missing == []


def test_the_readmes_pictures_are_among_its_links() -> None:
    assert (
        len([link for link in LINK.findall((ROOT / "README.md").read_text("utf-8")) if link.endswith(".png")])
        > 2
    )


def test_jobs_tests_and_what_the_packages_read_are_carried(carried) -> None:
    for folder in ("configs", "tests", "jigs", "geometry", ".ci"):
        there = {
            file.relative_to(ROOT).as_posix()
            for file in (ROOT / folder).rglob("*")
            if file.is_file() and "__pycache__" not in file.parts
        }
        assert there - carried == set(), folder


def test_an_installed_package_has_every_module_and_what_they_read(built) -> None:
    there = {
        file.relative_to(ROOT).as_posix()
        for top in ("geometry", "jigs")
        for file in (ROOT / top).rglob("*")
        if file.is_file() and "__pycache__" not in file.parts
    }
    with zipfile.ZipFile(built[1]) as archive:
        assert there <= set(archive.namelist())
