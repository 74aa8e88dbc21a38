"""Mistakes put in on sliders: they show, the job file stays, and what was put in stands beside them."""

import math

import pytest
from playwright.sync_api import expect

from jigs.asked.edited import BadEdit
from jigs.asked.jobfile import load
from jigs.forms.solve import shaped
from jigs.page.pictures import NAMES, limits, wrong_of
from tests.conftest import CONFIGS

FAST_ONLY = True


@pytest.fixture(scope="module", params=["trellis", "sorrel"])
def shape(request):
    return shaped(load(CONFIGS / f"{request.param}.toml"))


def test_each_mistake_that_a_form_can_have_shows_and_is_told(shape):
    plain = wrong_of(shape, {})
    assert plain.said == []
    for name, most in limits(shape).items():
        wrong = wrong_of(shape, {name: 1.0})
        assert len(wrong.said) == (most > 0)
        assert (wrong.pattern.png != plain.pattern.png) == (most > 0)


@pytest.mark.parametrize(
    "raw", [None, [], {"kerf": 1}, {"off_centre": "1"}, {"off_centre": True}, {"off_centre": math.nan}]
)
def test_what_is_no_mistake_is_refused(shape, raw):
    with pytest.raises(BadEdit):
        wrong_of(shape, raw)
    assert set(limits(shape)) == set(NAMES)


def test_a_slider_puts_a_mistake_in_and_takes_it_out(vessel):
    tab = vessel.tab
    tab.get_by_role("tab", name="Check").click()
    picture = "() => document.querySelector('#pattern canvas').getContext('2d').getImageData(0, 0, 9, 200).data.join()"
    before = tab.evaluate(picture)
    slider = tab.get_by_label("Rings too thick or too thin")
    slider.focus()
    for _ in range(8):
        tab.keyboard.press("ArrowRight")
    box = tab.get_by_role("group", name="Try mistakes")
    expect(box.get_by_role("status")).to_contain_text("too thick or too thin")
    tab.wait_for_function(f"(before) => ({picture})() !== before", arg=before)
    assert vessel.job.read_text("utf-8") == vessel.text
    with_it = tab.evaluate(picture)
    tab.get_by_role("button", name="No mistakes").click()
    tab.wait_for_function(f"(with_it) => ({picture})() !== with_it", arg=with_it)
    expect(box.get_by_role("listitem")).to_have_count(0)
    expect(tab.get_by_label("Layup off the middle")).to_be_hidden()
