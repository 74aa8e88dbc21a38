"""From a work to its book: cautions once at each place of a stage."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from jigs.render.book.content import Chapter, Step
from jigs.render.book.gather import book_of
from jigs.words.findings import Finding
from tests.work.works import work_of


def chapters_of(name: str) -> tuple[Chapter, ...]:
    return book_of(work_of(name), ()).chapters


@pytest.mark.parametrize("name", ["garland", "tumbler", "staved"])
def test_a_caution_is_told_once_at_a_place_and_later_steps_there_say_at_which_step(name: str) -> None:
    work = work_of(name)
    for chapter in chapters_of(name):
        steps = {step.number: step for step in chapter.steps}
        for step in chapter.steps:
            hold = [*step.cautions, *(text for other in _reminded(step, steps) for text in other.cautions)]
            own = next(one for one in work.operations if one.id == step.id).cautions
            assert {work.caution(id).text for id in own} <= set(hold)
        for place in {step.place for step in chapter.steps}:
            told = [text for step in chapter.steps if step.place == place for text in step.cautions]
            assert len(told) == len(set(told))


def _reminded(step: Step, steps: dict[int, Step]) -> list[Step]:
    """Earlier ones of the same stage, at the same place."""
    found = [steps[int(number)] for number in re.findall(r"\d+", step.reminder)]
    assert all(one.place == step.place and one.number < step.number for one in found)
    return found


def test_a_note_that_asks_ends_with_its_question_mark() -> None:
    asked = Finding("wood", "the weight of oak is not known", 'did you mean "red oak"?', severity="note")
    told = Finding("thin", "the wall is thin", severity="note")
    notes = book_of(replace(work_of("garland"), notes=(asked, told)), ()).notes
    assert notes == ('The weight of oak is not known. Did you mean "red oak"?', "The wall is thin.")
