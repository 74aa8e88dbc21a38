"""Old jigs of a job that has changed a little: judged by what each does, each by its own tolerance."""

from __future__ import annotations

import io
import tempfile
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from jigs.asked.jobfile import load
from jigs.files.formats import FORMATS
from jigs.forms.solve import solve
from jigs.parts.part import Bore, Part
from jigs.sets.changes import Difference, difference, judged_by
from jigs.sets.rack import rack

CONFIGS = Path(__file__).parents[2] / "configs"


@cache
def jigs(name: str, line: str, value: str) -> dict[str, Part]:
    """An example's jigs with one line of its file changed."""
    with tempfile.TemporaryDirectory() as folder:
        source = (CONFIGS / f"{name}.toml").read_text("utf-8").splitlines()
        assert line in source
        (Path(folder) / "shed.toml").write_text((CONFIGS / "shed.toml").read_text("utf-8"), "utf-8")
        file = Path(folder) / f"{name}.toml"
        file.write_text("\n".join(value if row == line else row for row in source), "utf-8")
        return {part.name: part for part in rack(solve(load(file)))[0]}


def told(new: Part, old: Part) -> Difference:
    """What is said of the old jig, read back from its file."""
    stream = io.BytesIO()
    FORMATS[old.process].write(old, stream, 0.0)
    dimensions = [{"name": d.name, "value": d.value} for d in old.dimensions]
    entry: dict[str, Any] = {"dimensions": dimensions, "quantity": old.quantity, **judged_by(old, 0.0)}
    return difference(new, entry, FORMATS[old.process].read(io.BytesIO(stream.getvalue()), 0.0), "mm")


OUTER = 'outer_diameter = "7 1/2"'
TUBE = 'tube_diameter = "1 5/8 in"'


def test_an_eighth_more_across_leaves_fork_fences_and_gussets_right():
    """The blank's tube grows by 0.03 mm: that is within the play of tabs, bolts and bridge."""
    old, new = (jigs("quoit", OUTER, f'outer_diameter = "{size}"') for size in ("9 3/8", "9 1/2"))
    for name in (
        "width-fork-1",
        "width-fork-2",
        "sled-fence",
        "sled-gusset",
        "segment-fence",
        "truing-gusset",
    ):
        assert abs(new[name].outline.bounds[3] - old[name].outline.bounds[3]) > 0.02, name
        assert not told(new[name], old[name]).wrong, name


def test_what_sets_an_angle_a_stop_or_the_metals_distance_from_the_cut_stays_as_strict():
    old, new = (jigs("quoit", OUTER, f'outer_diameter = "{size}"') for size in ("9 3/8", "9 1/2"))
    for name in ("sled-base", "sled-rod-stick", "segment-base", "hole-stick-1"):
        assert told(new[name], old[name]).wrong, name


def test_a_larger_tube_makes_fork_jaw_and_fence_wrong():
    old, new = (jigs("quoit", TUBE, f'tube_diameter = "{size}"') for size in ("41.3 mm", "42 mm"))
    for name in ("width-fork-1", "sled-jaw", "sled-fence"):
        assert told(new[name], old[name]).wrong, name


def test_every_flat_of_a_flats_gauge_counts():
    old, new = (jigs("garland", "tube_diameter = 54", f"tube_diameter = {size}") for size in (54, 54.06))
    assert told(new["flats-gauge"], old["flats-gauge"]).wrong


def test_a_wedge_whose_rod_has_moved_is_bored_again():
    """Its plates are the same; a larger core has a larger rod, and the bore is drawn nowhere."""
    opening = "core_opening = 20"
    old, new, close = (
        jigs("garland", opening, f"core_opening = {size}")["sled-wedge"] for size in (11, 20, 11.2)
    )
    assert old.bore
    assert new.bore
    assert new.bore.across > old.bore.across + 1
    assert not told(new, old).wrong
    (again,) = (what for what in told(new, old).to_do if "bore it again" in what)
    assert f"{new.bore.across:.2f}".rstrip("0").rstrip(".") in again
    assert not any("bore" in what for what in (*told(old, old).to_do, *told(close, old).to_do))


@pytest.mark.parametrize(
    ("along", "across", "right"),
    [
        (0.9, 0.0, True),
        (1.1, 0.0, False),
        (1.4, 1.0, False),
        (0.0, -1.0, True),
        (0.0, -2.5, False),
        (0.0, 4.0, False),
    ],
)
def test_an_old_bore_serves_while_the_rods_nut_passes_and_wood_is_left(along, across, right):
    bore = Bore(30.0, 25.0, 17.0, play=3.0)
    wedge = replace(jigs("garland", "core_opening = 20", "core_opening = 20")["sled-wedge"], bore=bore)
    old = replace(wedge, bore=replace(bore, along=30.0 + along, across=17.0 + across))
    assert any("bore it again" in what for what in told(wedge, old).to_do) != right


def test_of_a_bore_that_an_older_set_does_not_tell_the_place_is_told():
    wedge = jigs("garland", "core_opening = 20", "core_opening = 20")["sled-wedge"]
    assert any("see that its bore" in what for what in told(wedge, replace(wedge, bore=None)).to_do)
