"""A job in inches tells its turner nothing metric, in none of its files; what they measure is in mm."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.parts.part import Lettering
from jigs.sets.make import make
from jigs.sets.rack import rack
from tests.conftest import JOBS
from tests.jigs.vessel.jobs import text as vessel_text
from tests.metric import METRIC

BARE = re.compile(r"[ØR]?(\d+\.?\d*|\.\d+)")
PATCHED = re.compile(r"\d [+-] \.\d")  # a fraction and what is added to it


def _texts(folder):
    """What people read of a set: a file's name and its lines."""
    for file in sorted(folder.rglob("*")):
        if file.suffix in (".txt", ".dxf"):  # tables are for programs: in mm, whatever the job's unit
            yield from ((file.name, line) for line in file.read_text("utf-8").splitlines())
        elif file.suffix in (".svg", ".html"):
            yield from ((file.name, text) for text in re.findall(r">([^<>]+)<", file.read_text("utf-8")))


STATED = {"staved": vessel_text("staved"), "open": vessel_text("open")}


@pytest.mark.parametrize(
    "file", [*JOBS, *(Path(f"{name}.toml") for name in STATED)], ids=lambda file: file.stem
)
def test_nothing_metric_and_no_patched_fraction_is_told_in_an_inch_job(file, tmp_path):
    if file.stem in STATED:
        file = tmp_path / file
        file.write_text(STATED[file.stem], "utf-8")
    job = replace(load(file), unit="in")
    texts = list(_texts(make(job, tmp_path / "sets").folder))
    for part in rack(solve(job))[0]:
        sizes = {round(dimension.value, 3) for dimension in part.dimensions}
        bare = [mark.text for mark in part.marks if isinstance(mark, Lettering) and BARE.fullmatch(mark.text)]
        assert not [text for text in bare if float(text.lstrip("ØR")) in sizes], (
            part.name
        )  # mm, though unnamed
        texts += [(part.name, mark.text) for mark in part.marks if isinstance(mark, Lettering)]
        texts += [(part.name, note) for note in (*part.making, *part.notes)]
    assert len(texts) > 300
    assert any(re.search(r"\d\.\d{3} in \(\d", text) for _, text in texts)
    wrong = [(where, text) for where, text in texts if METRIC.search(text) or PATCHED.search(text)]
    assert wrong == []
