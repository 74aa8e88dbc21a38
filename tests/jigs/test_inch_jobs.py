"""A job in inches tells its turner nothing metric, in none of its files; what they measure is in mm."""

import re
from contextlib import contextmanager
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from unittest import mock

import pytest

from jigs.asked.jobfile import load
from jigs.files.drawing import without_notes
from jigs.files.formats import FORMATS
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.parts.part import Lettering
from jigs.sets.extras import _dxf as sheet_content
from jigs.sets.extras import extras
from jigs.sets.rack import rack
from tests.conftest import JOBS
from tests.jigs.vessel.jobs import text as vessel_text
from tests.metric import METRIC

BARE = re.compile(r"[ØR]?(\d+\.?\d*|\.\d+)")
NUMBER = re.compile(r" *-?[\d.]+(e-\d+)?")
PATCHED = re.compile(r"\d [+-] \.\d")  # a fraction and what is added to it


@contextmanager
def _unlettered():
    """Drawings without strokes, in which nothing is read; what they say is read of the parts themselves."""
    with (
        mock.patch("jigs.files.drawing.opened", return_value=()),
        mock.patch("jigs.files.sheet_dxf._lines", without_notes),
        mock.patch("jigs.files.sheet_dxf._count", return_value=None),
        mock.patch("jigs.sets.extras._dxf", sheet_content),  # not as another test has it, with letters
    ):
        yield


def _texts(plan, parts, told):
    """What people read of a set: a file's name and its lines; there is none in what is printed."""
    with mock.patch("jigs.sets.extras.bed_loads", return_value=()), _unlettered():
        files = {extra.file: extra.content for extra in extras(plan, parts, told)}
        for part in parts:
            if part.process != "print":
                stream, form = BytesIO(), FORMATS[part.process]
                form.write(part, stream, 0.0)
                files[form.file_name(part, plan.job.name)] = stream.getvalue()
    for file, content in files.items():
        if file.endswith((".txt", ".dxf")):  # tables are for programs: in mm, whatever the job's unit
            lines = set(content.decode().splitlines())
            yield from ((file, line) for line in lines if not NUMBER.fullmatch(line))
        elif file.endswith(".svg"):
            yield from ((file, text) for text in re.findall(r">([^<>]+)<", content.decode()))


STATED = {"staved": vessel_text("staved"), "open": vessel_text("open")}


@pytest.mark.parametrize(
    "file", [*JOBS, *(Path(f"{name}.toml") for name in STATED)], ids=lambda file: file.stem
)
def test_nothing_metric_and_no_patched_fraction_is_told_in_an_inch_job(file, tmp_path):
    if file.stem in STATED:
        file = tmp_path / file
        file.write_text(STATED[file.stem], "utf-8")
    plan = solve(replace(load(file), unit="in"))
    parts, notes = rack(plan)
    texts = {text: file for file, text in _texts(plan, parts, work(plan, parts, notes))}
    for part in parts:
        sizes = {round(dimension.value, 3) for dimension in part.dimensions}
        bare = [mark.text for mark in part.marks if isinstance(mark, Lettering) and BARE.fullmatch(mark.text)]
        assert not [text for text in bare if float(text.lstrip("ØR")) in sizes], (
            part.name
        )  # mm, though unnamed
        for mark in part.marks:
            texts[mark.text if isinstance(mark, Lettering) else mark.name] = part.name
        texts |= {note: part.name for note in (*part.making, *part.notes)}
    assert len(texts) > 300
    assert any(re.search(r"\d\.\d{3} in \(\d", text) for text in texts)
    wrong = [(where, text) for text, where in texts.items() if METRIC.search(text) or PATCHED.search(text)]
    assert wrong == []
