"""Segments painted in Debian's Chromium: pointed at on the form, on the surface, or by number."""

import numpy as np
import pytest
from playwright.sync_api import expect

from geometry.bodies.places import torus_places, vessel_places
from jigs.asked.jobfile import load
from jigs.forms.solve import shaped
from jigs.looks.woods import flat_rings
from tests.page.conftest import shows, stated

FAST_ONLY = True

SPOTS = """async (points) => {
  const { spotAt } = await import("/web/segments.js");
  const { current } = await import("/web/store.js");
  return points.map(([x, y, z]) => spotAt(current().fast.drawing.pattern, Math.hypot(x, y), Math.atan2(y, x), z));
}"""
QUICKLY = """rings => {
  for (const ring of rings) {
    document.querySelector("#paint-ring").value = ring;
    [...document.querySelectorAll("button")].find((one) => one.textContent === "Paint it").click();
  }
}"""  # before the first is answered
LEGEND = "Woods and how many pieces are of each"
SHORT = """async ([rows, repeats]) => (await import("/web/segments.js")).shortened(rows, repeats)"""


def woods(one):
    state = one.tab.evaluate("import('/web/store.js').then((store) => store.current().state)")
    return [ring["woods"] for ring in state["fast"]["drawing"]["pattern"]["rings"]]


def brush(tab, wood):
    tab.get_by_role("tab", name="Wood").click()
    choice = tab.locator(f'input[name="brush"][value="{wood}"]').first
    if not choice.is_visible():
        tab.get_by_text("More woods").click()
    choice.check()


def test_the_page_finds_the_segments_that_the_pictures_are_drawn_from(either):
    job = load(either.job)
    shape, rng = shaped(job), np.random.default_rng(7)
    phi, z = rng.uniform(-np.pi, np.pi, 300), rng.uniform(-26, 26, 300)
    if shape.kind == "torus":
        radius = job.form.major_radius + np.sqrt(27**2 - z**2) * rng.choice([-1, 1], 300)
    else:
        z = z + 90
        radius = np.full(300, 60.0)
        z[:50], radius[:50] = (
            10.0,
            rng.uniform(2.0, 12.0, 50),
        )  # of the lowest ring, in its plug and beside it
    points = np.column_stack((radius * np.cos(phi), radius * np.sin(phi), z))
    places = (
        torus_places(points, shape.blank)
        if shape.kind == "torus"
        else vessel_places(points, flat_rings(shape))
    )
    found = either.tab.evaluate(SPOTS, points.tolist())
    assert [(one["ring"], one["segment"]) for one in found] == [
        (a + 1, b + 1) for a, b in zip(places.ring.tolist(), places.segment.tolist(), strict=True)
    ]


@pytest.mark.parametrize(("rows", "repeats", "want"), [
    ([["a"] * 6] * 4, True, "a"),
    ([["a", "b"] * 3] * 4, True, [["a", "b"]]),
    ([["a"] * 6, ["b"] * 6] * 2, True, ["a", "b"]),
    ([["a"], ["b"] * 6, ["b"] * 6], False, ["a", "b"]),
    ([["a"], ["b"] * 6, ["a"] * 6, ["b"] * 6], False, ["a", "b", "a", "b"]),
    ([["a", "a", "b"] * 2, ["a"] * 6], True, [["a", "a", "b"], "a"]),
])  # fmt: skip
def test_woods_are_written_as_short_as_can_be(torus, rows, repeats, want):
    assert torus.tab.evaluate(SHORT, [rows, repeats]) == want


def test_a_click_on_the_form_names_and_paints_a_segment(vessel):
    tab = vessel.tab
    before = woods(vessel)
    brush(tab, "")
    canvas = tab.locator("#form canvas")
    canvas.click()
    status = tab.locator("#pane [role=status]").first
    expect(status).to_contain_text("Ring ")
    assert woods(vessel) == before
    brush(tab, "padauk")
    with tab.expect_response("**/api/change"):
        canvas.click()
    expect(tab.get_by_label(LEGEND)).to_contain_text("padauk: 1 piece")
    expect(status).to_contain_text("padauk")
    after = woods(vessel)
    assert (
        sum(a != b for one, two in zip(before, after, strict=True) for a, b in zip(one, two, strict=True))
        == 1
    )
    assert "# height and diameter, from the foot up" in vessel.job.read_text("utf-8")


def test_a_click_on_the_surface_laid_flat_paints_the_piece_under_it(torus):
    tab = torus.tab
    brush(tab, "walnut")
    box = tab.locator("#pattern canvas").bounding_box()
    with tab.expect_response("**/api/change"):
        tab.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(tab.get_by_label(LEGEND)).to_contain_text("walnut: 1 piece")
    painted = [
        (k, i) for k, ring in enumerate(woods(torus)) for i, wood in enumerate(ring) if wood == "walnut"
    ]
    assert len(painted) == 1
    [(ring, segment)] = painted  # in the middle lie angle 0, which is ring 1, and the rim
    assert ring == 0
    assert segment in (2, 3)  # of 10, the first straight down: an arris points out


def test_pieces_are_painted_by_number_from_the_keyboard(torus):
    tab = torus.tab
    brush(tab, "walnut")
    tab.get_by_label("Paint", exact=True).select_option("2")
    tab.locator("#paint-ring").fill("4")
    tab.locator("#paint-segment").fill("2")
    with tab.expect_response("**/api/change"):
        tab.get_by_role("button", name="Paint it").press("Enter")
    expect(tab.get_by_label(LEGEND)).to_contain_text("walnut: 5 pieces")
    assert woods(torus)[3] == ["maple", "walnut"] * 5
    assert stated(torus)["form"]["species"] == ["maple"] * 3 + [["maple", "walnut"]] + ["maple"] * 14
    tab.get_by_label("Paint", exact=True).select_option("piece")
    tab.evaluate(QUICKLY, [5, 6])
    expect(tab.get_by_label(LEGEND)).to_contain_text("walnut: 7 pieces")


@pytest.mark.parametrize(("name", "section", "rules"), [
    ("torus", "form", 'species = ["maple", "walnut"]\nspread = true\nturn = 1\n'),
    ("vessel", "rings", 'repeat = true\n'),
])  # fmt: skip
def test_the_rules_that_painting_takes_out_are_named_before_and_one_undo_brings_them_back(
    request, name, section, rules
):
    one = request.getfixturevalue(name)
    tab = one.tab
    lost = tab.get_by_text("takes these rules out")
    tab.get_by_role("tab", name="Wood").click()
    expect(lost).to_be_hidden()
    text = with_rules(one.text, section, rules)
    one.job.write_text(text, "utf-8")
    shows(tab, text)
    named = [line.split(" = ")[0] for line in rules.splitlines() if not line.startswith("species")]
    expect(lost).to_contain_text(f"takes these rules out: {', '.join(named)}.")
    brush(tab, "padauk")
    with tab.expect_response("**/api/change"):
        tab.get_by_role("button", name="Paint it").press("Enter")
    expect(lost).to_be_hidden()
    assert not {*named} & {*stated(one)[section]}
    with tab.expect_response("**/api/step"):
        tab.get_by_role("button", name="Undo").click()
    expect(lost).to_be_visible()
    assert one.job.read_text("utf-8") == text


def with_rules(text, section, rules):
    """A job's text with these in place of its own."""
    own = {line.split(" = ")[0] for line in rules.splitlines()}
    kept = [line for line in text.splitlines(keepends=True) if line.split(" = ")[0].rstrip() not in own]
    return "".join(kept).replace(f"[{section}]\n", f"[{section}]\n{rules}", 1)


def test_rings_are_turned_by_a_rule(vessel):
    tab = vessel.tab
    tab.get_by_role("tab", name="Wood").click()
    rule = tab.get_by_label("Pattern", exact=True)
    for choice, want in (("Spiral", 0.25), ("Joint over joint", 0), ("Zigzag", [0.25, 0.25, -0.25, -0.25])):
        with tab.expect_response("**/api/change"):
            rule.select_option(label=choice)
        assert stated(vessel)["rings"]["turn"] == want
    for label, typed, want in (("Rings until it turns back", "500", [0.25] * 9 + [-0.25] * 9),
                               ("Turned by, in segments", "0", [0.0] * 18)):  # fmt: skip
        with tab.expect_response("**/api/change"):
            tab.get_by_label(label).fill(typed)
            tab.get_by_label(label).press("Enter")
        assert stated(vessel)["rings"]["turn"] == want
    with tab.expect_response("**/api/change"):
        rule.select_option(label="Bricks: half a segment and back")
    assert "turn" not in stated(vessel)["rings"]


def test_a_ring_that_is_not_there_is_not_painted(torus):
    brush(torus.tab, "walnut")
    torus.tab.get_by_label("Ring", exact=True).fill("80")
    torus.tab.get_by_role("button", name="Paint it").click()
    expect(torus.tab.get_by_text("There are rings 1 to 18.")).to_be_visible()
    torus.tab.get_by_label("Ring", exact=True).fill("2")
    for number in ("11", "2.5"):
        torus.tab.get_by_label("Segment", exact=True).fill(number)
        torus.tab.get_by_role("button", name="Paint it").click()
        expect(torus.tab.get_by_text("Ring 2 has segments 1 to 10.")).to_be_visible()
    torus.tab.get_by_label("Segment", exact=True).fill("3")
    torus.tab.get_by_label("Another wood").fill('a"b')
    torus.tab.get_by_role("button", name="Paint it").click()
    expect(torus.tab.locator("#news")).to_contain_text("Not changed")
    expect(torus.tab.get_by_text("Ring 2, segment 3: maple.")).to_be_visible()
    assert torus.job.read_text("utf-8") == torus.text
