"""What the wood is refused for, in whole job files: where it is told, and that the job is taken once the remedy is
followed."""

from __future__ import annotations

import re

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import Unit, parse_length, show_length
from tests.jigs.vessel.jobs import text as vessel_text
from tests.jigs.wood.wood_jobs import torus_text

FILE = "loop.toml"
LAYUP = '[layup]\nplies = [["maple", "3 mm"], ["black", "0.6 mm"], ["walnut", "2.4 mm"]]\n'
WIDTH = '[stock]\nbought_width = "{} mm"\n'
NARROW = WIDTH.format(40)
SHORT = '[stock]\nbought_length = "300 mm"\n'
SMALL = '[stock]\nbought_width = "60 mm"\nbought_length = "300 mm"\n'
SLANTED = f'{LAYUP}mirrored = "up and down"\nstacking = "square"\nangle = 13\n'
BY_HAND = '[reversing]\nhold = "none"\n'
in_both = pytest.mark.parametrize("unit", ["mm", "in"])


def refusals(text: str) -> dict[str, Finding]:
    """By code; a code is told once."""
    told: tuple[Finding, ...] = ()
    try:
        solve(parse(text, FILE))
    except Refused as refused:
        told = refused.findings
    found = {finding.code: finding for finding in told}
    assert len(found) == len(told)
    return found


def line_of(text: str, key: str) -> int:
    """Where a key stands, or its table; from 1."""
    table, _, name = key.partition(".")
    lines, here, found = text.split("\n"), "", 0
    for number, line in enumerate(lines, 1):
        here = line.strip("[]") if line.startswith("[") else here
        if here == table and line.startswith((f"[{table}]", f"{name} =")):
            found = number
    return found


def with_value(text: str, key: str, value: str) -> str:
    """The job file with the key set so."""
    table, _, name = key.partition(".")
    bare = re.sub(rf"(?m)^{name} = .*\n", "", text)
    return bare.replace(f"[{table}]\n", f"[{table}]\n{name} = {value}\n")


def told(text: str, code: str, key: str) -> Finding:
    """The refusal, told where its key stands."""
    finding = refusals(text)[code]
    assert (finding.severity, finding.key, finding.file) == ("refused", key, FILE)
    assert finding.line == line_of(text, key) > 0
    assert finding.remedy
    return finding


def number_of(finding: Finding, unit: Unit) -> float:
    """The length that the remedy names, mm."""
    (length,) = re.findall(rf"at least (\d.*? {unit})\b", finding.remedy)
    return parse_length(length, unit)


def works(text: str, finding: Finding, unit: Unit) -> None:
    """The number in the remedy does, and a number half a mm less does not."""
    number = number_of(finding, unit)
    assert refusals(with_value(text, finding.key, f'"{show_length(number, unit)}"')) == {}
    less = refusals(with_value(text, finding.key, f'"{number - 0.5:.6f} mm"'))
    assert list(less) == [finding.code]


@in_both
@pytest.mark.parametrize(("name", "width"), [("torus", 40), ("platter", 60)])
def test_a_board_too_narrow_is_wide_enough_at_the_width_told(name: str, width: int, unit: Unit) -> None:
    more = WIDTH.format(width)
    text = torus_text(more=more, unit=unit) if name == "torus" else vessel_text(name, unit, more)
    finding = told(text, "board-too-narrow", "stock.bought_width")
    assert "other" not in finding.message
    works(text, finding, unit)


@in_both
def test_of_several_sizes_that_are_too_wide_the_widest_is_told_and_how_many_others(unit: Unit) -> None:
    text = vessel_text("vase", unit, WIDTH.format(20))
    finding = told(text, "board-too-narrow", "stock.bought_width")
    lots = solve(parse(vessel_text("vase", unit), FILE)).wood.lots
    wider = [lot for lot in lots if lot.name != "base" and lot.width + 1 + 5 > 20]
    assert f"nor do they give {len(wider) - 1} other sizes" in finding.message
    number = number_of(finding, unit)
    assert refusals(with_value(text, finding.key, f'"{number:.6f} mm"')) == {}


@in_both
def test_a_board_too_short_is_long_enough_at_the_length_told(unit: Unit) -> None:
    text = vessel_text("platter", unit, SHORT)
    works(text, told(text, "board-too-short", "stock.bought_length"), unit)


@in_both
def test_width_and_length_that_are_lacking_are_both_told_at_once(unit: Unit) -> None:
    text = vessel_text("platter", unit, SMALL)
    wide = told(text, "board-too-narrow", "stock.bought_width")
    long = told(text, "board-too-short", "stock.bought_length")
    for finding in (wide, long):
        number = number_of(finding, unit)
        text = with_value(text, finding.key, f'"{show_length(number, unit)}"')
    assert refusals(text) == {}


@in_both
def test_such_a_board_at_hand_is_as_good_as_one_that_can_be_bought(unit: Unit) -> None:
    text = torus_text(more=NARROW, unit=unit)
    number = number_of(told(text, "board-too-narrow", "stock.bought_width"), unit)
    thick = solve(parse(torus_text(unit=unit), FILE)).wood.lots[0].thickness
    sizes = f'thickness = "{thick:.6f} mm", width = "{number:.6f} mm", length = "2 m"'
    for count, codes in ((1, ["board-too-narrow"]), (9, [])):
        board = f'[{{species = "maple", {sizes.replace("2 m", "2000 mm")}, count = {count}}}]'
        assert list(refusals(with_value(text, "stock.boards", board))) == codes


@in_both
def test_a_sheet_too_narrow_for_a_strip_is_wide_enough_at_the_width_told(unit: Unit) -> None:
    text = torus_text(more=f'{LAYUP}plane = "face"\nmirrored = "none"\nsheet_width = "30 mm"\n', unit=unit)
    works(text, told(text, "sheet-too-narrow", "layup.sheet_width"), unit)


@in_both
def test_a_sheet_too_short_for_a_piece_is_long_enough_at_the_length_told(unit: Unit) -> None:
    more = f'{LAYUP}mirrored = "none"\nangle = 90\nsheet_length = "50 mm"\n'
    text = torus_text(more=more, unit=unit)
    works(text, told(text, "sheet-too-short", "layup.sheet_length"), unit)


@in_both
def test_a_stack_too_tall_is_cut_by_a_saw_as_high_as_told_or_in_another_plane(unit: Unit) -> None:
    more = f'{LAYUP}mirrored = "none"\n[saw]\nblade_height = "80 mm"\n'
    text = vessel_text("platter", unit, more)
    works(text, told(text, "stack-too-tall", "saw.blade_height"), unit)
    assert "stack-too-tall" not in refusals(with_value(text, "layup.plane", '"end"'))


@pytest.mark.parametrize(("plane", "mirrored"), [("end", "both"), ("face", "both"), ("face", "up and down")])
def test_a_pattern_that_cannot_be_mirrored_so_can_be_as_told(plane: str, mirrored: str) -> None:
    text = torus_text(more=f'{LAYUP}plane = "{plane}"\nmirrored = "{mirrored}"\n')
    finding = told(text, "not-mirrored", "layup.mirrored")
    first, second = re.search(r'mirrored = "([a-z ]+)" or "([a-z ]+)"', finding.remedy).groups()
    for value in (first, second):
        assert refusals(with_value(text, "layup.mirrored", f'"{value}"')) == {}
    assert 'plane = "flat"' in finding.remedy
    assert refusals(with_value(text, "layup.plane", '"flat"')) == {}


def test_rings_without_segments_have_a_layup_once_others_are_named_or_none() -> None:
    text = vessel_text("cup", more=f'{LAYUP}mirrored = "none"\nrings = [1, 3]\n{BY_HAND}')
    finding = told(text, "no-segments", "layup.rings")
    assert "ring 1 " in finding.message
    assert refusals(with_value(text, "layup.rings", "[3, 4]")) == {}
    assert refusals(text.replace("rings = [1, 3]\n", "")) == {}


def test_pieces_too_short_to_hold_are_longer_when_mirrored_as_told() -> None:
    text = vessel_text("cup", more=LAYUP + BY_HAND)
    finding = told(text, "layup-piece-short", "layup.mirrored")
    (mirrored,) = re.findall(r'mirrored = "([a-z ]+)" would do', finding.remedy)
    assert refusals(with_value(text, "layup.mirrored", f'"{mirrored}"')) == {}


def test_a_stack_cut_at_too_great_a_slant_is_held_at_the_angles_told() -> None:
    text = vessel_text("vase", more=SLANTED + BY_HAND).replace("segments = 12", "segments = 8")
    finding = told(text, "layup-angle", "layup.angle")
    angles = re.search(r"of (\d+) or (\d+) degrees", finding.remedy).groups()
    assert angles == ("0", "15")
    for angle in angles:
        assert refusals(with_value(text, "layup.angle", angle)) == {}


@in_both
def test_a_layups_sled_is_taken_by_a_saw_with_the_throat_told(unit: Unit) -> None:
    text = torus_text(more=f'{LAYUP}[saw]\nthroat = "300 mm"\n', unit=unit)
    works(text, told(text, "throat", "saw.throat"), unit)


def test_a_key_that_is_not_written_is_told_at_its_table() -> None:
    text = torus_text(more=f'{LAYUP}plane = "end"\n')
    finding = told(text, "not-mirrored", "layup.mirrored")
    assert text.split("\n")[finding.line - 1] == "[layup]"
