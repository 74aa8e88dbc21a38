"""A few of the seeded changes of tests/sweep/mutations.py: each is found, or known to hurt nothing."""

from pathlib import Path
from random import Random

import pytest

from jigs.dryfit.torus import dry_fit
from tests.sweep.harmless import HARMLESS
from tests.sweep.mutations import put_back, scaled, tried
from tests.sweep.remembered import Remembered

CONFIGS = Path(__file__).parents[2] / "configs"
SEED, COUNT = 1, 8


@pytest.fixture(scope="module")
def trellis(set_of):
    return Remembered(*set_of("trellis"))


@pytest.mark.parametrize("number", range(0, 2 * COUNT, 2))
def test_a_seeded_change_is_found_or_known_to_be_harmless(number, trellis):
    one = tried(trellis, Random(f"{SEED} {number}"))
    assert not one.missed, f"{one.file}: {one.change}"
    assert not one.faults


def test_the_set_is_good_again_and_every_harmless_change_has_its_reason(trellis):
    assert not dry_fit(trellis.job, trellis.folder).misfits
    assert all(why for _, _, why in HARMLESS)


@pytest.mark.parametrize("kind", ["print/*.stl", "cut/*-base.dxf", "sheets/*.dxf"])
def test_what_is_remembered_of_the_good_set_changes_no_verdict(kind, trellis):
    file = min(trellis.folder.glob(kind))
    with put_back(file):
        scaled(file, Random(1)) if file.suffix == ".dxf" else file.unlink()
        again, anew = trellis.again(), dry_fit(trellis.job, trellis.folder)
    assert repr(again.misfits) == repr(anew.misfits) != "()"  # a measure may be nan
