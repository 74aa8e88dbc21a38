"""The woods of a torus, turned by rule from ring to ring."""

import numpy as np
import pytest

from geometry.blanks.pattern import ply_at
from geometry.blanks.truing import half_ends
from geometry.bodies.places import Places
from jigs.asked.job import TorusJob
from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.looks.woods import pattern_of
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.check import spiral_findings
from jigs.stages.wedge_rings.woods import left_open, ring_woods
from jigs.words.findings import Refused

FORM = (
    "[form]\nouter_diameter = 250\ntube_diameter = 54\nwedge_rings = 18\nsegments = 10\ncore_opening = 20\n"
)


def asked(*lines: str) -> TorusJob:
    read = parse(FORM + "\n".join(lines), "hoop.toml")
    assert isinstance(read, TorusJob)
    return read


STRIPE = 'species = [["walnut", "maple", "maple", "maple", "maple"]]'


def test_a_turn_of_one_segment_winds_a_stripe_round_the_tube():
    rows = ring_woods(asked(STRIPE, "turn = 1").form)
    dark = [{i for i, wood in enumerate(row) if wood == "walnut"} for row in rows]
    assert dark == [{k % 5, k % 5 + 5} for k in range(18)]


def test_a_list_of_turns_zigzags():
    rows = ring_woods(asked(STRIPE, "turn = [1, 1, -1, -1]").form)
    assert [row.index("walnut") for row in rows[:9]] == [0, 1, 2, 1, 0, 1, 2, 1, 0]


def test_without_a_turn_the_woods_stand_in_line():
    rows = ring_woods(asked(STRIPE).form)
    assert len(set(rows)) == 1


@pytest.mark.parametrize(
    ("turn", "off"), [("1", 3), ("5", 0), ("[1, -1]", 0), ("[1, 1, -1]", 1), ("2", 1), ("-1", 3)]
)
def test_what_a_spiral_misses_is_the_sum_of_its_turns_over_all_joints(turn, off):
    """Its woods repeat after 5 segments; 18 joints with the closing one."""
    form = asked(STRIPE, f"turn = {turn}").form
    turns = form.turn
    total = sum(turns[k % len(turns)] for k in range(18)) % 5
    assert abs(left_open(form)) == min(total, 5 - total)
    assert (left_open(form) != 0) is (off != 0)


def test_a_spiral_that_breaks_is_told_and_one_that_closes_is_not():
    assert [f.code for f in spiral_findings(asked(STRIPE, "turn = 1"))] == ["spiral-open"]
    assert not list(spiral_findings(asked(STRIPE, "turn = 5")))
    assert not list(spiral_findings(asked('species = "maple"', "turn = 1")))


def test_part_of_a_segment_is_refused_with_a_whole_one():
    with pytest.raises(Refused) as refused:
        asked(STRIPE, "turn = 0.5")
    (finding,) = refused.value.findings
    assert (finding.code, finding.key, finding.line) == ("part-of-a-segment", "form.turn", 8)


def test_the_cut_list_counts_the_pieces_and_spare_rings_fit_any_ring():
    plan = solve(asked(STRIPE, "turn = 1"))
    assert isinstance(plan, TorusPlan)
    counts = {lot.species: lot.count for lot in plan.wood.lots if lot.piece == "segment"}
    assert counts == {"walnut": 18 * 2, "maple": 18 * 8}
    assert plan.spare_rings == (tuple(range(1, 19)),)


def test_two_woods_spread_over_the_rings_are_the_two_halves_that_are_glued():
    form = asked('species = ["maple", "walnut"]', "spread = true").form
    rows = ring_woods(form)
    ends = half_ends(18)
    starts = [ring for ring, face in ends.items() if face == 1]
    assert [rows[ring - 1][0] for ring in starts] == ["maple", "walnut"]
    for begin, wood in zip(starts, ("maple", "walnut"), strict=True):
        assert {row[0] for row in rows[begin - 1 : begin + 8]} == {wood}


@pytest.mark.parametrize(("woods", "counts"), [(2, {9}), (3, {6}), (4, {4, 5}), (18, {1})])
def test_a_spread_list_is_shared_out_evenly_and_in_order(woods, counts):
    names = [f"wood {k}" for k in range(woods)]
    rows = [row[0] for row in ring_woods(asked(f"species = {names}", "spread = true").form)]
    assert list(dict.fromkeys(rows)) == names
    assert {rows.count(name) for name in names} == counts


def test_a_layup_of_two_thick_plies_makes_segments_of_two_woods():
    """Across the flat: each ply is seen as one block, with one joint square to the flat."""
    read = asked("[layup]", 'plies = [["maple", 12.0], ["walnut", 40.0]]', "angle = 90", 'mirrored = "none"')
    plan = solve(read)
    assert isinstance(plan, TorusPlan)
    (layup,) = plan.layups
    u, zero = np.linspace(-10.0, 10.0, 401), np.zeros(401, dtype=np.intp)
    ply = ply_at(Places(zero, zero, u, zero + 1.0, zero + 0.0), pattern_of(layup))
    assert {0, 1} == {*ply.tolist()}
    (step,) = np.flatnonzero(np.diff(ply))
    assert layup.layup.a / 2 + (u[step] + u[step + 1]) / 2 == pytest.approx(12.0, abs=0.05)
