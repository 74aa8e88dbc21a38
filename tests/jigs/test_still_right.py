"""Old jigs of a job that has changed a little: judged by what each does, each by its own tolerance."""

from __future__ import annotations

import io
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

from jigs.changes import Difference, difference, judged_by
from jigs.formats import FORMATS
from jigs.jobfile import load
from jigs.make import Made
from jigs.part import Part
from jigs.rack import rack
from jigs.solve import solve
from jigs.words.changes import changes_text

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


def test_an_eighth_more_across_leaves_fork_jaw_fences_and_gussets_right():
    """The blank's tube grows by 0.03 mm: that is within the play of tabs, bolts and bridge."""
    old, new = (jigs("quoit", OUTER, f'outer_diameter = "{size}"') for size in ("9 3/8", "9 1/2"))
    for name in (
        "width-fork-1",
        "width-fork-2",
        "sled-jaw",
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


def test_jigs_that_are_still_good_are_told_by_their_codes():
    near = tuple((name, "") for name in ("sled-jaw", *(f"hole-stick-{k}" for k in range(1, 40))))
    made = Made(Path("rack"), (), unchanged=False, near=near)
    title, *rows = changes_text(made).splitlines()
    assert "still good" in title
    assert rows[0].startswith("  40 jigs: SJ, HS1, HS2, ")
    assert " ".join(rows).count(",") == 39
    assert max(map(len, rows)) <= 102
