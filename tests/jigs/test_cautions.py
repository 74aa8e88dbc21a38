"""Cautions stand where they are met, each once, and name what they warn of."""

from __future__ import annotations

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.work.cautions import CAUTIONS, STANDING, irritating
from jigs.work.model import Work
from tests.jigs.job_texts import SOUND
from tests.work.reading import operation, work_for
from tests.work.works import work_of


@pytest.mark.parametrize("name", ["garland", "sorrel"])
def test_eyes_ears_clothes_and_the_manual_are_told_of_at_the_front(name: str) -> None:
    front = {caution.id for caution in work_of(name).cautions if caution.standing}
    assert front == set(STANDING)
    assert {"machines.wear", "lathe.clothes", "manual", "saw.power"} <= front


@pytest.mark.parametrize(
    ("id", "cautions"),
    [
        ("finish.coats", ("finish.rags", "finish.fumes")),
        ("cutting_out.sheet", ("laser", "router")),
        ("building.segment-carrier-first-pass", ("saw.guard-sled", "saw.back", "saw.slot")),
        ("segments.tilt", ("saw.guard-sled", "table-saw")),
        ("wedge_rings.set", ("saw.guard-sled", "table-saw")),
        ("segments.mitre", ("table-saw.stop", "saw.bin", "table-saw")),
        ("wedge_rings.first", ("sled.rod", "table-saw")),
        ("wedge_rings.second", ("sled.rod", "sled.peg", "table-saw")),
        ("first_mounting.start", ("lathe.turn-past-rest", "lathe.speed", "lathe.stand")),
        ("reversed_mounting.reverse", ("lathe.bolt",)),
        ("reversed_mounting.start", ("lathe.turn-past-rest", "lathe.speed-bolted", "lathe.stand")),
        ("braced_mounting.seat", ("lathe.braces",)),
        ("braced_mounting.start", ("lathe.turn-by-hand", "lathe.speed-bolted", "lathe.stand")),
        ("braced_mounting.turn", ("lathe.brace-ends", "lathe.gauge", "lathe.stand")),
        ("braced_mounting.sand", ("lathe.sanding-braced",)),
        ("last_mounting.start", ("lathe.turn-past-rest", "lathe.speed-bolted", "lathe.stand")),
    ],
)
def test_what_can_hurt_is_told_of_at_its_step(id: str, cautions: tuple[str, ...]) -> None:
    assert operation(work_of("garland"), id).cautions == cautions


@pytest.mark.parametrize("id", ["wedge_rings.first", "wedge_rings.second", "wedge_rings.ends"])
def test_the_offcut_of_a_ring_is_lifted_out_once_the_blade_stands(id: str) -> None:
    how = operation(work_of("garland"), id).how
    fed = next(k for k, move in enumerate(how) if move.startswith("Switch on"))
    assert how[fed].endswith("switch off.")
    assert how[fed + 1].startswith("Let the blade stop")
    assert "offcut out with a stick" in how[fed + 1]


@pytest.mark.parametrize(
    "id", ["segments.first", "segments.mitre", "wedge_rings.first", "wedge_rings.second"]
)
def test_what_is_tugged_at_is_clear_of_the_blade(id: str) -> None:
    moves = [
        move
        for move in operation(work_of("garland"), id).how
        if "tug at" in move or "pull at the ring" in move
    ]
    assert moves
    assert all(move.startswith("Saw off") and "clear of the blade" in move for move in moves)


@pytest.mark.parametrize("wood", ["rosewood", "Indian Rosewood", "padauk", "wenge", "yew", "African-Padauk"])
def test_a_wood_that_irritates_is_named(wood: str) -> None:
    assert irritating(["maple", wood]) == [wood]


@pytest.mark.parametrize("wood", ["maple", "new oak", "yewlike", "walnut"])
def test_other_woods_are_not(wood: str) -> None:
    assert irritating([wood]) == []


def warned_of(told: Work, id: str) -> str:
    """The woods that a step names as irritant, where its first caution is of them."""
    step = operation(told, id)
    assert step.cautions[0] == "wood.irritant"
    return str(step.setting("irritants").value)


def test_a_job_of_yew_warns_before_it_is_sawn() -> None:
    plan = solve(parse(SOUND + 'species = ["yew", "maple"]\n', "hoop.toml"))
    assert warned_of(work_for(plan), "boards.pick") == "yew"


def test_plies_of_such_a_wood_count_too() -> None:
    layup = '[layup]\nplies = [["maple", 3], ["wenge", 2]]\n'
    plan = solve(parse(SOUND.replace("segments = 8", "segments = 6") + layup, "hoop.toml"))
    assert warned_of(work_for(plan), "layup.plies") == "wenge"


def test_ids_are_plain_and_words_whole_sentences() -> None:
    for one, words in CAUTIONS.items():
        assert one == one.lower().strip()
        assert " " not in one
        assert words.endswith(".")
    assert len(set(CAUTIONS.values())) == len(CAUTIONS)
