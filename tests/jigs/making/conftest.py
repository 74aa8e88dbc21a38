"""The demo's set, made once, and a root folder in which it stands. What is typeset in it is not set."""

from __future__ import annotations

import shutil

import pytest

from jigs.asked.jobfile import load
from jigs.sets.make import make
from tests.jigs.making.sets import ROOT
from tests.unset import unset_paper


@pytest.fixture(autouse=True)
def unset():
    with unset_paper():
        yield


@pytest.fixture
def job_file(tmp_path):
    """The demo and its workshop, to be changed."""
    for name in ("garland.toml", "shed.toml"):
        shutil.copy(ROOT / "configs" / name, tmp_path)
    return tmp_path / "garland.toml"


@pytest.fixture(scope="session")
def made_once(tmp_path_factory):
    """The demo's set, made once; copied by the tests that change it."""
    root = tmp_path_factory.mktemp("once")
    with unset_paper():
        make(load(ROOT / "configs" / "garland.toml"), root)
    return root / "garland"


@pytest.fixture
def standing(tmp_path, job_file, made_once):
    """A root folder in which the demo's set stands."""
    root = tmp_path / "out"
    shutil.copytree(made_once, root / "garland")
    return root
