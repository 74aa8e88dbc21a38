"""Form, section and surface in Debian's Chromium: dragged, typed beside, told where something is wrong."""

import re

import pytest
from playwright.sync_api import expect

from tests.page.conftest import dragged, job_in, middle, shows, stated

FAST_ONLY = True
DRAWN = "canvas => canvas.toDataURL()"


def test_a_point_goes_out_or_up_and_undo_takes_one_drag_back(vessel):
    tab = vessel.tab
    dragged(tab, "outside-4", 24, 3)
    now = stated(vessel)["profile"]["stations"]
    assert now[3][1] > 150
    assert now[3][0] == 110
    dragged(tab, "outside-4", 2, -20)
    assert stated(vessel)["profile"]["stations"][3][0] > 112
    tab.get_by_role("button", name="Undo").click()
    expect(tab.get_by_label("Point 4: height")).to_have_value("110")
    assert stated(vessel)["profile"]["stations"] == now
    assert "# height and diameter, from the foot up" in vessel.job.read_text("utf-8")


def test_a_joint_is_dragged_between_two_rings(vessel):
    dragged(vessel.tab, "joint-2", 0, -12)
    heights = stated(vessel)["rings"]["heights"]
    assert len(heights) == 9
    assert heights[1] > 21
    assert heights[1] + heights[2] == pytest.approx(42)
    assert set(heights[3:]) == {21}


def test_the_numbers_are_typed_beside_a_handle(vessel):
    tab = vessel.tab
    handle = tab.locator('[data-id="outside-2"]')
    handle.focus()
    expect(handle).to_have_attribute("aria-valuetext", "Diameter 74.0 mm, Height 12.0 mm")
    tab.keyboard.press("Enter")
    tab.keyboard.type("80 mm")
    tab.keyboard.press("Tab")
    vessel.job.write_text(vessel.text + "# new\n", "utf-8")
    shows(tab, vessel.text + "# new\n")
    tab.keyboard.press("Enter")
    expect(handle).to_have_attribute("aria-valuetext", "Diameter 80.0 mm, Height 12.0 mm")
    assert stated(vessel)["profile"]["stations"][1] == [12, 80]


def test_keys_in_a_row_are_one_step(torus):
    tab = torus.tab
    tab.locator('[data-id="tube"]').focus()
    with tab.expect_response("**/api/change"):  # one, when the keys rest
        tab.evaluate(
            "() => [1, 2, 3].forEach(() => document.activeElement.dispatchEvent("
            "new KeyboardEvent('keydown', { key: 'ArrowUp', bubbles: true })))"
        )
    expect(tab.get_by_label("Tube diameter").last).to_have_value("57")
    assert stated(torus)["form"]["tube_diameter"] == 57
    tab.get_by_role("button", name="Undo").click()
    expect(tab.get_by_label("Tube diameter").last).to_have_value("54")


def test_escape_keeps_nothing(torus):
    tab = torus.tab
    x, y = middle(tab, "hole")
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.mouse.move(x + 10, y, steps=3)
    expect(tab.locator("#verdict")).to_have_text(re.compile("Let go|Cannot"))
    tab.keyboard.press("Escape")
    tab.mouse.up()
    expect(tab.locator("#verdict")).not_to_have_text("Let go to keep this")
    assert torus.job.read_text("utf-8") == torus.text


def test_a_step_there_and_one_back_leave_nothing_to_keep(torus):
    tab = torus.tab
    tab.locator('[data-id="rim"]').focus()
    tab.keyboard.press("ArrowRight")
    tab.keyboard.press("ArrowLeft")
    expect(tab.locator("#verdict")).to_have_text("Let go to keep this")
    expect(tab.locator("#verdict")).not_to_have_text("Let go to keep this")
    assert torus.job.read_text("utf-8") == torus.text


def test_the_section_follows_the_hand_before_the_server_answers(either):
    tab = either.tab
    name = {"garland": "rim", "sorrel": "outside-4"}[either.job.stem]
    tab.route("**/api/try", lambda route: None)  # not answered meanwhile
    line = tab.locator("path.finished")
    before = line.get_attribute("d")
    x, y = middle(tab, name)
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.mouse.move(x + 4, y)
    moving = tab.locator("#section canvas.moving")
    expect(moving).to_be_visible()
    expect(line).to_be_hidden()
    little = moving.evaluate(DRAWN)
    tab.mouse.move(x + 14, y, steps=3)
    tab.wait_for_function(
        f"before => ({DRAWN})(document.querySelector('canvas.moving')) !== before", arg=little
    )
    assert middle(tab, name)[0] == pytest.approx(x + 14, abs=2)
    tab.unroute("**/api/try")
    tab.mouse.up()
    expect(tab.locator("#undo")).to_be_enabled()
    tab.get_by_role("button", name="Undo").click()
    expect(line).to_have_attribute("d", before)
    expect(line).to_be_visible()


def test_a_wall_in_inches_is_moved_by_keys_and_a_drawn_outside_says_why_it_is_not(vessel):
    tab, beaker = vessel.tab, job_in(vessel.job.parent, "tumbler").read_text("utf-8")
    vessel.job.write_text(beaker, "utf-8")
    shows(tab, beaker)
    tab.locator('[data-id="wall-2"]').focus()
    number = tab.locator(".beside input")
    expect(number).to_have_value("9/32")
    with tab.expect_response("**/api/change"):
        tab.keyboard.press("ArrowUp")
    expect(number).to_have_value("5/16")
    tab.locator("h1").click()  # the numbers go
    tab.get_by_text("Without handles").click()
    expect(tab.locator(".without li")).to_contain_text("tumbler.dxf")


def test_what_is_wrong_shows_where_it_is(torus):
    tab = torus.tab
    dragged(tab, "core", 0, 50)
    expect(tab.locator("circle.wrong")).to_have_count(1)
    expect(tab.locator("#section .marks")).to_contain_text("Wall between core and surface")


def test_outside_and_inside_laid_flat_say_which_is_which(vessel):
    parts = vessel.tab.locator("#pattern .stretch")
    expect(parts).to_have_count(2)
    expect(parts.first).to_contain_text("The outside from the rim")
    expect(parts.last).to_contain_text("The inside from the rim")


def test_points_are_changed_added_and_taken_out_in_a_table(vessel):
    tab = vessel.tab
    tab.get_by_role("tab", name="Shape").click()
    was = stated(vessel)["profile"]["stations"]
    cell = tab.get_by_label("Point 3: diameter")
    cell.fill("128")
    with tab.expect_response("**/api/change"):
        cell.press("Tab")
    with tab.expect_response("**/api/change"):
        tab.get_by_role("button", name="Add a point after point 3").click()
    expect(tab.get_by_label("Point 7: height")).to_have_value("180")
    assert stated(vessel)["profile"]["stations"] == [*was[:2], [60, 128], [85, 138], *was[3:]]
    with tab.expect_response("**/api/change"):
        tab.get_by_role("button", name="Take point 4 out").click()
    expect(tab.get_by_label("Point 7: height")).to_have_count(0)
    cell.fill("12,8")
    cell.press("Tab")
    expect(tab.get_by_role("alert").filter(has_text="decimal point")).to_be_visible()
    expect(cell).to_have_value("12,8")
    cell.fill("130")
    with tab.expect_response(lambda answer: "[0,72]" in (answer.request.post_data or "")):
        tab.get_by_label("Point 1: diameter").fill("72")  # typed before the one before is answered
        cell.focus()
    assert [one[1] for one in stated(vessel)["profile"]["stations"][:3]] == [72, 74, 130]


ADDED = """async ([unit, rows]) => {
  const { current } = await import("/web/store.js");
  const { pointsTable } = await import("/web/points.js");
  const { state } = current(), was = state.unit;
  let kept = "";
  const table = pointsTable({ key: "profile.edges", label: "Outside" }, async (text) => { kept = text; });
  table.follow(JSON.stringify(rows));
  state.unit = unit;
  table.root.querySelector("tbody button").click();
  state.unit = was;
  return JSON.parse(kept);
}"""


@pytest.mark.parametrize(
    ("unit", "first", "last", "between"),
    [
        ("in", [0, "2 3/4"], ["1 1/2", 3], ["3/4", "2 7/8"]),
        ("in", [0.5, "70 mm"], [1, "70 mm"], ["3/4", 2.7559]),
        ("mm", [0, 70], ["1 in", 71.5], [12.7, 70.75]),
    ],
)
def test_a_point_added_between_lengths_with_fractions_or_units_lies_half_way(
    vessel, unit, first, last, between
):
    assert vessel.tab.evaluate(ADDED, [unit, [first, last]]) == [first, between, last]


def test_without_webgl_a_drawn_picture_follows_the_job(chromium, torus):
    """WebGL is refused here as a browser without it does."""
    tab = chromium.new_page(viewport={"width": 1024, "height": 768})
    tab.add_init_script(
        "const ask = HTMLCanvasElement.prototype.getContext;"
        "HTMLCanvasElement.prototype.getContext = function (kind, ...more) {"
        "  return kind.startsWith('webgl') ? null : ask.call(this, kind, ...more); };"
    )
    tab.goto(torus.address)
    image = tab.locator("#form img")
    expect(image).to_have_attribute("src", re.compile("^blob:"))
    first = image.get_attribute("src")
    assert image.evaluate("(image) => image.decode().then(() => image.naturalWidth)") > 200
    dragged(tab, "rim", 10, 0)
    expect(image).not_to_have_attribute("src", first)
    tab.close()


def test_a_picture_that_was_hidden_shows_the_job_as_it_is_when_it_comes(vessel):
    """A phone shows one picture at a time."""
    tab = vessel.tab
    tab.set_viewport_size({"width": 390, "height": 844})
    try:
        tab.reload()
        expect(tab.locator("#form canvas")).to_be_visible()
        tab.get_by_role("button", name="Surface laid flat").click()
        expect(tab.locator("#pattern canvas").first).to_be_visible()
    finally:
        tab.set_viewport_size({"width": 1280, "height": 800})


def test_the_window_holds_the_page_when_there_is_news(torus):
    tab = torus.tab
    torus.job.write_text(torus.text + "# new\n", "utf-8")
    expect(tab.locator("#news")).to_be_visible()
    assert tab.evaluate("document.documentElement.scrollHeight <= innerHeight")


def test_a_form_that_has_grown_stays_in_view(torus):
    tab = torus.tab
    look = """() => {
      const far = () => {
        const pixels = document.querySelector("#form canvas");
        const copy = Object.assign(document.createElement("canvas"), { width: pixels.width, height: pixels.height });
        const pen = copy.getContext("2d");
        pen.drawImage(pixels, 0, 0);
        const row = (x) => pen.getImageData(x, 0, 1, copy.height).data.some((value) => value > 0);
        return [row(0), row(copy.width - 1), row(copy.width >> 1)];
      };
      window.seen = new Promise((told) => document.addEventListener("drawn", () => told(far()), { once: true }));
    }"""
    wide = tab.get_by_label("Outer diameter", exact=True).last
    wide.fill("310")
    wide.press("Enter")
    expect(tab.locator("#undo")).to_be_enabled()
    tab.evaluate(look)
    tab.set_viewport_size({"width": 1290, "height": 800})
    assert tab.evaluate("window.seen") == [False, False, True]
    tab.set_viewport_size({"width": 1280, "height": 800})


def test_an_ellipse_is_as_far_from_the_axis_as_the_round_tube_was(torus):
    """R = (250 - 54)/2, whatever its height; that is typed, then dragged."""
    tab = torus.tab
    caption = tab.locator("figcaption", has_text="the axis is")
    expect(caption).to_contain_text("98.0 mm")
    tab.locator("details", has=tab.get_by_label("Tube height")).first.evaluate("group => group.open = true")
    tab.get_by_label("Tube height").last.fill("48")
    tab.get_by_label("Tube height").last.press("Enter")
    expect(tab.locator('[data-id="tube-height"]')).to_be_visible()
    expect(caption).to_contain_text("98.0 mm")
    dragged(tab, "tube-height", 0, -6)
    assert stated(torus)["form"]["tube_height"] > 48
    expect(caption).to_contain_text("98.0 mm")
