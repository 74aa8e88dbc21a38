"""The work on the page, in Debian's Chromium: ticked, read and corrected there; and what may come between."""

import tomllib

from playwright.sync_api import expect


def at_work(tab):
    tab.get_by_role("tab", name="Work").click()
    expect(tab.get_by_role("button", name="Go to the next step")).to_be_visible(timeout=60_000)
    return tab.get_by_role("region", name="The work")


def test_what_is_ticked_stays_ticked_and_the_next_step_is_found(torus):
    tab = torus.tab
    work = at_work(tab)
    line = work.get_by_role("status").first
    expect(line).to_contain_text("0 of")
    tab.get_by_role("button", name="Go to the next step").click()
    first = tab.get_by_role("checkbox", name="Done: step 1", exact=True)
    expect(first).to_be_focused()
    other = tab.context.new_page()
    other.goto(torus.address)
    at_work(other)
    first.check()
    expect(line).to_contain_text("1 of")
    expect(other.get_by_role("region", name="The work").get_by_role("status").first).to_contain_text("1 of")
    other.close()
    tab.reload()
    expect(at_work(tab).get_by_role("status").first).to_contain_text("1 of")
    expect(tab.get_by_text("Before every step")).to_be_visible()
    tab.get_by_role("button", name="Go to the next step").click()
    expect(tab.get_by_role("checkbox", name="Done: step 2", exact=True)).to_be_focused()


def test_a_step_has_all_that_the_book_has_and_its_readings_are_answered(torus):
    tab = torus.tab
    work = at_work(tab)
    work.locator("summary", has_text="Cut the wedge rings").click()
    step = work.locator("[data-step='wedge_rings.trial']")
    expect(step.get_by_role("button", name="Show large: CC, check-corner")).to_be_visible()
    expect(work.get_by_role("list", name="Caution").first).to_be_visible()
    expect(step).to_contain_text("Lengths in mm")
    rim = step.get_by_label("Light at the rim")
    rim.fill("0.42")
    rim.press("Tab")
    expect(step.locator(".said").first).to_contain_text("put 0.12 mm of paper")
    file = torus.job.with_name("garland.readings.toml")
    assert tomllib.loads(file.read_text("utf-8"))["wedge_rings"]["trial"]["gap-at-rim"] == 0.42
    expect(work.get_by_role("region", name="What your readings say")).to_contain_text(
        "Wedge angle: correct it"
    )
    expect(step.get_by_label("Light at the hole")).to_be_focused()
    expect(step.get_by_text("gap-at-rim", exact=True)).to_be_visible()
    find = work.get_by_label("Find a step or reading by its id")
    find.fill("glue_up.check-halves.light-at-rim")
    find.press("Enter")
    expect(work.get_by_label("Light at the rim, at one end: half 1, half 2, 1 of 2")).to_be_focused()
    find.fill("glue_up.nothing")
    find.press("Enter")
    expect(work.get_by_role("alert").first).to_have_text("No step or reading has this id.")
    rim.fill("so so")
    rim.press("Tab")
    expect(step.locator(".said").first).to_contain_text("Not written down")
    assert "so so" not in file.read_text("utf-8")


def test_choices_are_compared_and_one_is_taken(quick_torus):
    tab = quick_torus.tab
    before = quick_torus.job.read_text("utf-8")
    tab.get_by_role("tab", name="Choices").click()
    pane = tab.get_by_role("region", name="Choices", exact=True)
    pane.get_by_label("What matters most").select_option("gap")
    for label, count in (("Wedge rings, at least", "16"), ("Wedge rings, at most", "20"),
                         ("Segments in a ring, at least", "10"), ("Segments in a ring, at most", "10")):  # fmt: skip
        pane.get_by_label(label).fill(count)
    pane.get_by_role("button", name="Compare").click()
    expect(pane.get_by_role("progressbar", name="Comparing")).to_be_visible()
    rows = pane.get_by_role("row")
    expect(rows.filter(has_text="Wedge rings")).to_contain_text("1816")  # as it is, then the best
    with tab.expect_response("**/api/change"):
        pane.get_by_role("button", name="Take choice 1").click()
    assert quick_torus.job.read_text("utf-8") == before.replace("wedge_rings = 18", "wedge_rings = 16")
    with tab.expect_response("**/api/step"):
        tab.locator("#undo").click()
    assert quick_torus.job.read_text("utf-8") == before
