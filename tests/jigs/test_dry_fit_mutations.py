"""A few of the seeded changes of tests/sweep/mutations.py: each is found, or known to hurt nothing."""

from pathlib import Path
from random import Random

import pytest

from jigs.dryfit.run import dry_fit
from jigs.jobfile import load
from jigs.make import make
from tests.sweep.mutations import HARMLESS, tried

CONFIGS = Path(__file__).parents[2] / "configs"
SEED, COUNT = 1, 8


@pytest.fixture(scope="module")
def trellis(tmp_path_factory):
    job = load(CONFIGS / "trellis.toml")
    return job, make(job, tmp_path_factory.mktemp("mutations")).folder


@pytest.mark.parametrize("number", range(0, 2 * COUNT, 2))
def test_a_seeded_change_is_found_or_known_to_be_harmless(number, trellis):
    one = tried(*trellis, Random(f"{SEED} {number}"))
    assert not one.missed, f"{one.file}: {one.change}"
    assert not one.faults


def test_the_set_is_good_again_and_every_harmless_change_has_its_reason(trellis):
    assert not dry_fit(*trellis).misfits
    assert all(why for _, _, why in HARMLESS)
