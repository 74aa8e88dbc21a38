"""Cautions stand where they are met, each once, and name what they warn of."""

from __future__ import annotations

import pytest

from jigs.cautions import CAUTIONS, irritants, told
from jigs.jobfile import load, parse
from jigs.rack import rack
from jigs.sheets.nesting import nest
from jigs.sheets.words import sheet_section
from jigs.solve import solve
from jigs.words.report import sections
from tests.jigs.job_texts import CONFIGS, EXAMPLES, SOUND


def cautions(plan) -> dict[str, tuple[str, ...]]:
    """By section."""
    return {section.title: section.cautions for section in sections(plan)}


@pytest.fixture(scope="module")
def garland():
    return solve(load(CONFIGS / "garland.toml"))


def test_eyes_and_ears_are_told_of_at_the_saws(garland) -> None:
    assert set(told("machines.wear")) <= set(cautions(garland)["Order of the work"])


def test_what_is_worn_at_the_lathe_is_told_before_it_spins(garland) -> None:
    assert set(told("lathe.clothes")) <= set(cautions(garland)["Every mounting, before it spins"])
    vase = cautions(solve(load(CONFIGS / "sorrel.toml")))
    assert set(told("lathe.clothes", "lathe.manual")) <= set(
        vase["First mounting: the stack on its waste block"]
    )


def test_oily_rags_and_fumes_are_told_of_at_the_finish(garland) -> None:
    assert cautions(garland)["Finish and weight"][:2] == told("finish.rags", "finish.fumes")


@pytest.mark.parametrize("title", ["Truing quarters and halves", "Clamping", "Glue", "Speed"])
def test_the_manual_comes_first_where_something_is_sanded_glued_or_spun(garland, title: str) -> None:
    assert any(
        "local rules and trained practice come first" in caution for caution in cautions(garland)[title]
    )


def test_laser_and_router_are_told_of_at_the_sheets(garland) -> None:
    sheets = nest(rack(garland)[0], garland.job.workshop)
    said = sheet_section(sheets, (), "mm").cautions
    assert said[:3] == told("laser", "router", "manual")
    assert sheet_section((), (), "mm").cautions == ()


@pytest.mark.parametrize("wood", ["rosewood", "Indian Rosewood", "padauk", "wenge", "yew", "African-Padauk"])
def test_a_wood_that_irritates_is_named(wood: str) -> None:
    [said] = irritants(["maple", wood])
    assert said.startswith(wood)


@pytest.mark.parametrize("wood", ["maple", "new oak", "yewlike", "walnut"])
def test_other_woods_are_not(wood: str) -> None:
    assert irritants([wood]) == ()


def test_a_job_of_yew_warns_before_it_is_sawn() -> None:
    plan = solve(parse(SOUND + 'species = ["yew", "maple"]\n', "hoop.toml"))
    assert cautions(plan)["Order of the work"][0].startswith("yew: the dust irritates")


def test_plies_of_such_a_wood_count_too() -> None:
    layup = '[layup]\nplies = [["maple", 3], ["wenge", 2]]\n'
    plan = solve(parse(SOUND.replace("segments = 8", "segments = 6") + layup, "hoop.toml"))
    assert cautions(plan)["Order of the work"][0].startswith("wenge")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_caution_is_told_twice_in_a_section(path) -> None:
    for title, said in cautions(solve(load(path))).items():
        assert len(set(said)) == len(said), title


def test_ids_are_plain_and_words_whole_sentences() -> None:
    for one, words in CAUTIONS.items():
        assert one == one.lower().strip()
        assert " " not in one
        assert words.endswith(".")
    assert len(set(CAUTIONS.values())) == len(CAUTIONS)
