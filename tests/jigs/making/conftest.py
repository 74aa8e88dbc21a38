"""The demo's set, made once, and a root folder in which it stands.

Of most it is the jigs alone, a third of the work. A file that looks at what is beside them says `BESIDES = True`: its
sets are whole, but that what is typeset is not set. One that looks at sleds which stand there says `SLEDS = True`;
elsewhere none is tried.
"""

from __future__ import annotations

import shutil
from contextlib import nullcontext
from functools import cache

import pytest

from jigs.asked.jobfile import load
from jigs.sets.make import make
from tests.jigs.making.sets import ROOT
from tests.unset import jigs_alone, old_sleds_untried, unset_paper


@pytest.fixture(scope="module")
def besides(request):
    return getattr(request.module, "BESIDES", False)


@pytest.fixture(scope="module", autouse=True)
def unset(request, besides):
    sleds = getattr(request.module, "SLEDS", False)
    with unset_paper() if besides else jigs_alone(), nullcontext() if sleds else old_sleds_untried():
        yield


@pytest.fixture
def job_file(tmp_path):
    """The demo and its workshop, to be changed."""
    for name in ("garland.toml", "shed.toml"):
        shutil.copy(ROOT / "configs" / name, tmp_path)
    return tmp_path / "garland.toml"


@pytest.fixture(scope="session")
def made_sets(tmp_path_factory):
    """The demo's set by whether it is whole, each made once."""

    @cache
    def made_set(besides):
        root = tmp_path_factory.mktemp("once")
        with unset_paper() if besides else jigs_alone():
            make(load(ROOT / "configs" / "garland.toml"), root)
        return root / "garland"

    return made_set


@pytest.fixture(scope="module")
def made_once(made_sets, besides):
    """The demo's set, made once; copied by the tests that change it."""
    return made_sets(besides)


@pytest.fixture
def standing(tmp_path, job_file, made_once):
    """A root folder in which the demo's set stands."""
    root = tmp_path / "out"
    shutil.copytree(made_once, root / "garland")
    return root
