"""Old jigs that a make calls right are put into the new set, and its dry fit passes; those it calls wrong are out.

`tests/still_right/run.py` tries as many changes as one likes; here there are a few, each run others.
"""

from __future__ import annotations

import random
import shutil
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from jigs.asked.jobfile import load
from jigs.files.formats import FORMATS
from jigs.parts.part import Part
from jigs.parts.readback import ReadBack
from jigs.sets.changes import difference, judged_by
from jigs.sets.rack import prove
from tests.still_right.changed_jobs import CONFIGS, Change, change, source, with_key
from tests.still_right.put_back import Tally, try_change

SLEDS = True

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


@pytest.mark.parametrize(
    ("job", "text", "part"),
    [
        # leaves its ring 0.03 mm too thin
        ("sorrel", source("sorrel").replace("  [180, 96],", "  [180, 95.1],"), "stop-stick-ring-7"),
        # its rings' middles are 0.07 mm off
        ("millwheel", with_key(source("millwheel"), "saw", "kerf", '"4.18 mm"'), "sled-base"),
        # no even gap at its gauge
        ("garland", with_key(source("garland"), "form", "outer_diameter", "249.96"), "retainer-section"),
        # its flat is 0.04 mm too low for the ring
        ("quoit", with_key(source("quoit"), "form", "tube_diameter", '"41.42 mm"'), "sled-jaw"),
    ],
    ids=["stick", "sled", "retainer", "jaw"],
)
def test_a_jig_is_wrong_where_what_it_does_is_out(job, text, part, tmp_path):
    old, new = _part(job, source(job), part, tmp_path), _part(job, text, part, tmp_path)
    assert difference(new, *_entry(old), "mm").wrong
    assert not difference(old, *_entry(old), "mm").wrong


def test_a_runner_serves_while_its_screws_go_in_and_its_width_fits_the_slot(tmp_path):
    runner = _part("sorrel", source("sorrel"), "plan-angle-runner-n12", tmp_path)
    first, *others = runner.holes
    shifted = replace(runner, holes=(first.moved(0.05, 0.0), *others))
    assert not difference(runner, *_entry(shifted), "mm").wrong
    sizes = [replace(one, value=one.value - 0.05 * (one.name == "runner width")) for one in runner.dimensions]
    assert difference(runner, *_entry(replace(runner, dimensions=tuple(sizes))), "mm").wrong


def _part(job: str, text: str, name: str, root: Path) -> Part:
    for file in (*CONFIGS.glob("*.toml"), *CONFIGS.glob("*.dxf")):
        shutil.copy(file, root)
    (root / f"{job}.toml").write_text(text, "utf-8")
    return next(part for part in prove(load(root / f"{job}.toml")).parts if part.name == name)


def _entry(part: Part) -> tuple[dict[str, object], ReadBack]:
    """What the manifest keeps of a part, and its file."""
    stream, form = BytesIO(), FORMATS[part.process]
    form.write(part, stream, 0.0)
    stream.seek(0)
    sizes = [{"name": size.name, "value": size.value} for size in part.dimensions]
    return {"dimensions": sizes, **judged_by(part, 0.0)}, form.read(stream, 0.0)
