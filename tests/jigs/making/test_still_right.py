"""Old jigs that a make calls right are put into the new set, and its dry fit passes; those it calls wrong are out.

`tests/still_right/run.py` tries as many changes as one likes; here there are a few, each run others.
"""

from __future__ import annotations

import random

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from tests.still_right.changed_jobs import Change, change, source, with_key
from tests.still_right.put_back import Tally, try_change

QUICK = (Phase.explicit, Phase.reuse, Phase.generate)  # a failing change is slow to shrink


@settings(max_examples=2, deadline=None, phases=QUICK, suppress_health_check=list(HealthCheck))
@given(st.integers(0, 10**6), st.sampled_from(["garland", "quoit", "sorrel"]))
def test_what_is_called_right_passes_the_dry_fit(seed, job):
    draw, tally = random.Random(seed), Tally()
    try_change(change(draw, job), tally, draw, tried=1)
    assert tally.right_fails == []


@pytest.mark.parametrize(
    ("tube", "right"), [("1 9/16 in", {"sled-wedge", "end-wedge", "sled-stop-cheek", "truing-cheek"})]
)
def test_a_thinner_tube_leaves_the_wedges_and_the_stop_right(tube, right):
    draw, tally = random.Random(1), Tally()
    text = with_key(source("quoit"), "form", "tube_diameter", f'"{tube}"')
    made = try_change(Change("quoit", tube, text), tally, draw, tried=1)
    assert made is not None
    assert right <= {name for name, _ in made.near} | set(made.right)
    assert tally.right_fails == []


def test_another_title_makes_no_jig_wrong():
    draw, tally = random.Random(1), Tally()
    text = source("quoit").replace('title = "Quoit"', 'title = "Loop"')
    made = try_change(Change("quoit", "title", text), tally, draw)
    assert made is not None
    assert made.wrong == ()
    assert any("re-letter it" in told for _, told in made.near)


def test_a_stop_stick_that_would_leave_its_ring_too_thin_is_wrong():
    draw, tally = random.Random(1), Tally()
    text = source("sorrel").replace("  [180, 96],", "  [180, 95.1],")
    made = try_change(Change("sorrel", "Ø95.1 at 180", text), tally, draw, tried=1)
    assert made is not None
    assert "stop-stick-ring-7" in dict(made.wrong)
    assert tally.right_fails == []


def test_a_sled_that_stands_nearer_to_the_blade_than_a_ring_allows_is_wrong():
    draw, tally = random.Random(1), Tally()
    text = with_key(source("millwheel"), "saw", "kerf", '"4.18 mm"')
    made = try_change(Change("millwheel", "kerf", text), tally, draw, tried=1)
    assert made is not None
    assert "sled-base" in dict(made.wrong)
    assert tally.right_fails == []
