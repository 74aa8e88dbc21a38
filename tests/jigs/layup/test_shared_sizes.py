"""Rings of a layup that are almost alike are made of one size, so that one pair of sleds serves them all."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.ring_stack import ALIKE, shared_sizes
from jigs.asked.jobfile import load
from jigs.dryfit.torus import dry_fit
from jigs.forms.solve import solve
from jigs.plans.vessel import VesselPlan
from tests.unset import jigs_made

URN = """\
title = "Urn"
[profile]
stations = [[0, 90], [60, 120], [80, 120.5], [100, 120.9], [140, 108]]
[wall]
thickness = 8
floor = 10
[rings]
heights = 20
segments = 12
species = "maple"
"""
LAYUP = (
    '[layup]\nangle = 40\nmirrored = "none"\nplies = [["maple", 3], ["walnut", 2]]\nrings = [3, 4, 5, 6]\n'
)

sizes = st.lists(st.tuples(st.floats(30, 60), st.floats(5, 25)), min_size=1, max_size=12)


@given(sizes)
def test_a_shared_size_holds_each_ring_and_is_not_much_larger(given_sizes):
    found = shared_sizes(given_sizes)
    for (outer, core), (shared_outer, shared_core) in zip(given_sizes, found, strict=True):
        assert outer <= shared_outer <= outer + ALIKE[0]
        assert core - ALIKE[1] <= shared_core <= core
    assert len(set(found)) <= len(set(given_sizes))


@given(st.tuples(st.floats(30, 60), st.floats(5, 25)), st.floats(0, 1), st.floats(0, 3))
def test_two_that_are_alike_share_one_size_and_two_that_are_not_keep_theirs(size, wider, deeper):
    outer, core = size
    alike = (outer - wider * 0.999, core + deeper * 0.999)
    assert len(set(shared_sizes([size, alike]))) == 1
    other = (outer - ALIKE[0] - 0.01 - wider, core)
    assert shared_sizes([other, size]) == [other, size]


@pytest.fixture(scope="module")
def urn(tmp_path_factory):
    folder = tmp_path_factory.mktemp("urn")
    (folder / "plain.toml").write_text(URN, encoding="utf-8")
    (folder / "urn.toml").write_text(URN + LAYUP, encoding="utf-8")
    return folder


def rings_of(plan) -> dict[int, tuple[float, float]]:
    assert isinstance(plan, VesselPlan)
    return {layer.number: (layer.ring.outer, layer.ring.core) for layer in plan.stack.layers}


def test_only_rings_of_the_layup_grow_and_those_alike_have_one_layup(urn):
    plain, own = (solve(load(urn / f"{name}.toml")) for name in ("plain", "urn"))
    bare, shared = rings_of(plain), rings_of(own)
    assert (
        shared[4]
        == shared[5]
        == shared[6]
        == (max(bare[i][0] for i in (4, 5, 6)), min(bare[i][1] for i in (4, 5, 6)))
    )
    assert {number for number in bare if bare[number] != shared[number]} <= {4, 5, 6}
    assert [layup.rings for layup in own.layups] == [(3,), (4, 5, 6)]
    assert own.stack.wood > plain.stack.wood


def test_the_dry_fit_of_rings_of_one_size_passes(urn):
    job = load(urn / "urn.toml")
    assert not dry_fit(job, jigs_made(job, urn), sheets=False).misfits
