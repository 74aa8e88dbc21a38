import math
import unicodedata

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.strokes.lettering import SPACING, beyond, drawn_length, glyph, places, strokes, text_width
from geometry.strokes.letters import GLYPHS, letterable

texts = st.text(st.sampled_from(sorted({*GLYPHS, *"ÄçŐŁß"})), min_size=1, max_size=12)
inked = texts.filter(lambda text: text.strip() == text)


@pytest.mark.parametrize("character", sorted(set(GLYPHS) - {" "}))
def test_every_stroke_has_length_and_stands_right_of_the_origin(character):
    for stroke in glyph(character):
        assert np.hypot(*np.diff(stroke, axis=0).T).min() > 0.05
        assert stroke[:, 0].min() >= 0
    assert min(stroke[:, 0].min() for stroke in glyph(character)) == 0


@pytest.mark.parametrize("character", sorted("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"))
def test_letters_and_digits_stand_on_the_base_line_at_cap_height(character):
    points = np.concatenate(glyph(character))
    assert points[:, 1].max() == 1
    assert points[:, 1].min() == pytest.approx(-1 / 12 if character == "Q" else 0)


LATIN = [chr(code) for code in range(0xA1, 0x180) if unicodedata.category(chr(code))[0] == "L"]


@pytest.mark.parametrize("character", [*LATIN, *"ȘȚǍǦẄỲẞƏ"])
def test_every_letter_of_europes_latin_alphabets_is_drawn(character):
    drawn = np.concatenate(strokes(character))
    assert drawn[:, 0].min() == pytest.approx(0)
    assert -0.6 < drawn[:, 1].min() <= 0.05
    assert 0.95 <= drawn[:, 1].max() < 1.6


@pytest.mark.parametrize(
    "text", ["ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ", "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯ", "ІЇЄҐ", "ẤỬỢẶ"]
)
def test_other_alphabets_are_drawn(text):
    assert letterable(text) == (text, "")
    strokes(text)


@pytest.mark.parametrize(("accented", "plain"), [("Ä", "A"), ("é", "E"), ("ç", "C"), ("Ů", "U"), ("ņ", "N")])
def test_an_accent_stands_clear_of_its_letter(accented, plain):
    letter = glyph(plain)
    own = glyph(accented)[len(letter) :]
    assert own
    cedilla = accented in "çņ"
    for stroke in own:
        beside = stroke[:, 1].min() > 1.15 or stroke[:, 1].max() < (0.01 if cedilla else -0.15)
        assert beside, stroke


def test_two_letters_of_one_character_stand_side_by_side():
    assert text_width("ß", 1) == pytest.approx(text_width("SS", 1))
    assert text_width("ﬁ", 1) == pytest.approx(text_width("FI", 1))


def test_what_cannot_be_drawn_is_left_out_and_named():
    assert letterable("環 Ring 環€") == ("Ring", "環€")
    assert letterable("A\u0308hre") == ("Ähre", "")
    assert letterable("環") == ("", "環")


def test_only_accents_reach_beyond_the_lines_of_other_lettering():
    assert beyond("(Ø 30) QUOTE/2") == (0.0, 0.0)
    above, below = beyond("ÇÄ")
    assert 0.1 < above < 0.4
    assert 0.1 < below < 0.4
    assert beyond("") == (0.0, 0.0)


def test_no_two_characters_look_alike():
    drawn = {character: text for character, text in GLYPHS.items() if text}
    assert len(set(drawn.values())) == len(drawn)


def test_the_letters_a_turner_needs_are_all_there():
    strokes("ABCDEFGHIJKLMNOPQRSTUVWXYZ 0123456789.,:;-+/()='\"°Ø×±%<>!?&#_→←↑↓")


def test_lower_case_is_drawn_as_upper_case():
    assert all(np.array_equal(a, b) for a, b in zip(strokes("Gauge 3b"), strokes("GAUGE 3B"), strict=True))


@pytest.mark.parametrize(("text", "named"), [("50 €", "'€'"), ("x~y", "'~'"), ("tab\there", r"'\\t'")])
def test_an_unknown_character_is_named(text, named):
    with pytest.raises(ValueError, match=f"no character {named}"):
        strokes(text)


def test_no_text_has_no_strokes_and_no_width():
    assert strokes("") == ()
    assert text_width("", 4) == 0
    assert places("") == ()


@given(inked, st.floats(1, 20))
def test_the_width_is_that_of_the_strokes(text, height):
    points = np.concatenate(strokes(text, height=height))
    assert points[:, 0].max() == pytest.approx(text_width(text, height))
    assert points[:, 0].min() == 0


@given(texts, st.floats(-4, 4), st.floats(0.5, 20))
def test_text_is_turned_and_scaled_about_its_origin(text, angle, height):
    turn = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    plain = strokes(text)
    for drawn, stroke in zip(strokes(text, (3, -2), height, angle), plain, strict=True):
        assert np.allclose(drawn, stroke @ turn * height + (3, -2), atol=1e-9)


def test_neighbours_keep_their_distance():
    *first, second = strokes("HI", height=4)
    assert second[:, 0].min() - np.concatenate(first)[:, 0].max() == pytest.approx(4 * SPACING)


@given(texts)
def test_the_length_of_strokes_is_that_of_their_pieces(text):
    pieces = [np.hypot(*np.diff(line, axis=0).T).sum() for line in strokes(text, (7.0, -3.0), 4.0, 0.3)]
    assert 4.0 * drawn_length(text) == pytest.approx(sum(pieces))


def test_a_blank_has_no_strokes_and_so_no_length():
    assert drawn_length(" ") == drawn_length("") == 0.0
