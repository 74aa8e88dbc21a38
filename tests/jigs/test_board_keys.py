"""The boards and sheets at hand, as a job file states them."""

import pytest

from jigs.asked.job_wood import Board
from jigs.asked.jobfile import parse
from jigs.words.findings import Refused

FORM = """\
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 18
segments = 8
core_opening = 20
"""
ASH = '{species = "Ash", thickness = 22, width = "6 in", length = 1200, count = 2}'


def stock(lines):
    return parse(f"{FORM}\n[stock]\n{lines}\n").workshop.stock


def refusal(entry, key="boards"):
    with pytest.raises(Refused) as refused:
        stock(f"{key} = [{ASH}, {entry}]")
    [finding] = refused.value.findings
    assert (finding.key, finding.line) == (f"stock.{key}", 9)
    return finding


def test_a_board_has_a_species_and_a_thickness_and_what_else_is_known():
    boards = stock(f'boards = [{ASH}, {{species = "oak", thickness = 30}}]').boards
    assert boards == (Board("ash", 22.0, 6 * 25.4, 1200.0, 2), Board("oak", 30.0, None, None, 1))


@pytest.mark.parametrize(
    ("written", "meant"),
    [("counts = 3", "count"), ("Width = 9", "width"), ("lenght = 9", "length"), ("thick = 9", "thickness")],
)
@pytest.mark.parametrize("key", ["boards", "sheets"])
def test_a_misspelt_key_is_told_with_its_board_and_the_nearest_key(key, written, meant):
    finding = refusal(f'{{species = "oak", thickness = 30, {written}}}', key)
    assert finding.code == "unknown-key"
    assert finding.message == f'{key[:-1]} 2 ("oak"): "{written.split()[0]}" is not a known key'
    assert finding.remedy == f"Did you mean {meant}?"


def test_a_key_near_none_is_told_with_those_there_are():
    finding = refusal('{species = "oak", thickness = 30, moisture = 9}')
    assert finding.remedy == "Leave it out; known here: species, thickness, width, length, count"


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ('{species = "oak"}', 'board 2 ("oak"): its thickness is missing'),
        ("{thickness = 30}", "board 2: its species is missing"),
        ('{species = "oak", thickness = 30, count = 0}', 'board 2 ("oak"): 0 is not a count from 1 to 10000'),
        ('{species = "oak", thickness = 0}', 'board 2 ("oak"): 0.0 mm is out of range'),
        ('{species = "oak", thickness = "thick"}', 'board 2 ("oak"): "thick" is not a length'),
        ("{species = 3, thickness = 30}", "board 2: 3 is not a name"),
        ('["oak", 30]', "board 2: a list is not a board"),
    ],
)
def test_what_else_is_wrong_is_told_with_its_board(entry, message):
    finding = refusal(entry)
    assert finding.message == message
    assert finding.remedy


def test_one_board_without_its_brackets_is_answered_with_a_list():
    """The word table is the saw's."""
    with pytest.raises(Refused) as refused:
        stock('boards = {species = "oak", thickness = 30}')
    [finding] = refused.value.findings
    assert finding.message == "what stands in { } is not a list"
    assert '[{species = "ash"' in finding.remedy
