"""Titles in any alphabet: what the stroke font can draw is lettered, the rest is left out with a warning."""

from __future__ import annotations

import pytest

from jigs.asked.jobfile import load, parse
from jigs.forms.solve import solve
from jigs.parts.part import Lettering, Part
from jigs.sets.rack import rack
from tests.jigs.inspection import faults
from tests.jigs.job_texts import CONFIGS, SOUND


def lettered(title: str) -> tuple[list[Part], set[str], str]:
    """Parts, codes of the notes, and the title as the job has it."""
    plan = solve(parse(f'title = "{title}"\n{SOUND}', "hoop.toml"))
    return rack(plan)[0], {note.code for note in plan.notes}, plan.job.title


@pytest.mark.parametrize("title", ["Drähte für Öfen, groß", "ŁÓDŹ ÇÅŞ", "Žluťoučký kůň", "ЁЖ Йод"])
def test_letters_with_accents_stand_on_every_plate_and_on_no_edge(title: str) -> None:
    parts, notes, kept = lettered(title)
    assert kept == title
    assert "title-not-lettered" not in notes
    assert [fault for part in parts for fault in faults(part)] == []
    texts = [mark.text for part in parts for mark in part.marks if isinstance(mark, Lettering)]
    assert any(title.upper()[:8] in text for text in texts)


@pytest.mark.parametrize(
    ("title", "kept"), [("環 Ring 環", "Ring"), ("環", "hoop"), ("50 € Ring", "50 Ring")]
)
def test_what_cannot_be_drawn_is_left_out_with_a_warning(title: str, kept: str) -> None:
    parts, notes, job_title = lettered(title)
    assert job_title == kept
    assert "title-not-lettered" in notes
    assert [fault for part in parts for fault in faults(part)] == []


def test_a_vessels_title_is_warned_of_too(tmp_path) -> None:
    text = (CONFIGS / "sorrel.toml").read_text("utf-8").replace('"Sorrel"', '"花 Sorrel"')
    (tmp_path / "sorrel.toml").write_text(text, "utf-8")
    (tmp_path / "shed.toml").write_bytes((CONFIGS / "shed.toml").read_bytes())
    plan = solve(load(tmp_path / "sorrel.toml"))
    [note] = [note for note in plan.notes if note.code == "title-not-lettered"]
    assert (note.severity, note.line) == ("warning", 3)
    assert 'no 花, so the title reads "Sorrel"' in note.message
