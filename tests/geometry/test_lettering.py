import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.glyphs import GLYPHS
from geometry.lettering import SPACING, glyph, places, strokes, text_width

texts = st.text(st.sampled_from(sorted(GLYPHS)), min_size=1, max_size=12)
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
