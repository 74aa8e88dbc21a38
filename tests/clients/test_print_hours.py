"""The hours and grams of printed parts, against PrusaSlicer's own for the same plates with its default speeds."""

import re

import pytest

from jigs.asked.job_shop import Printer
from jigs.files.stl import write_stl
from jigs.work.printing import printed
from tests.examples import parts_of_example

SLICING = (
    "--layer-height", 0.2, "--first-layer-height", 0.2, "--nozzle-diameter", 0.4, "--perimeters", 3,
    "--fill-density", "100%", "--fill-pattern", "rectilinear",
    "--perimeter-generator", "classic",
)  # fmt: skip
SECONDS = {"d": 86400, "h": 3600, "m": 60, "s": 1}
PRINTER = Printer(bed=(220.0, 220.0), nozzle=0.4, layer=0.2, play=0.1)
PLA = 1.24  # g/cm3, as the rule has it
PARTS = (  # plain, small, bevelled, with much around little, large
    ("garland", "flats-gauge"), ("garland", "brace-pad"), ("annulet", "hole-gauge-stage-1"),
    ("acorn-lid", "knob-gauge"), ("sorrel", "outside-gauge-stage-1-2"),
)  # fmt: skip


def told(text: str) -> tuple[float, float]:
    """Hours and cm3 out of what the slicer writes at the end of its code."""
    time = re.search(r"printing time \(normal mode\) = (.*)", text)
    volume = re.search(r"filament used \[cm3\] = (\S+)", text)
    assert time
    assert volume
    parts = re.findall(r"(\d+)([dhms])", time.group(1))
    return sum(int(count) * SECONDS[unit] for count, unit in parts) / 3600, float(volume.group(1))


def test_the_rule_is_within_a_fifth_of_what_a_slicer_says(sliced, tmp_path):
    parts = {}
    for job, name in PARTS:
        file = tmp_path / f"{job}-{name}.stl"
        parts[file] = next(part for part in parts_of_example(job) if part.name == name)
        write_stl(parts[file], file)
    for file, code in sliced(list(parts), *SLICING).items():
        hours, volume = told(code)
        part = parts[file]
        rule = printed(part, PRINTER)
        found = (rule.hours / part.quantity / hours, rule.grams / part.quantity / (PLA * volume))
        assert found == pytest.approx((1, 1), abs=0.2), file.name
