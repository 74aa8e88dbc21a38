"""A source distribution carries what its pages point to, and every package is named."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tarfile
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGES = ("README.md", "DEVELOPERS.md", "outputs/README.md")
KEPT = ("geometry", "jigs", "configs", "tests", ".ci")
LINK = re.compile(r"\]\(([^)#:]+)\)")
BUILD = "import setuptools.build_meta as backend; print(backend.build_sdist('dist'))"


@pytest.fixture(scope="module")
def carried(tmp_path_factory) -> set[str]:
    """Names of the files in a source distribution built from a copy of this tree."""
    pytest.importorskip("setuptools", reason="nothing here builds packages")
    tree = tmp_path_factory.mktemp("tree")
    for name in KEPT:
        shutil.copytree(ROOT / name, tree / name, ignore=shutil.ignore_patterns("__pycache__"))
    (tree / "outputs").mkdir()
    for file in (*ROOT.iterdir(), *(ROOT / "outputs").iterdir()):  # without the jobs that were made there
        if file.is_file() and file.name != ".git":
            shutil.copy(file, tree / file.relative_to(ROOT))
    command = [sys.executable, "-c", BUILD]
    built = subprocess.run(command, cwd=tree, capture_output=True, text=True, check=True, timeout=120)
    with tarfile.open(tree / "dist" / built.stdout.split()[-1]) as archive:
        names = [name.partition("/")[2] for name in archive.getnames()]
    return {name for name in names if name}


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


def test_every_folder_of_modules_is_named_as_a_package() -> None:
    named = set(tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["packages"])
    found = {
        init.parent.relative_to(ROOT).as_posix().replace("/", ".")
        for top in ("geometry", "jigs")
        for init in (ROOT / top).rglob("__init__.py")
    }
    assert named == found
