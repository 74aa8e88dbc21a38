"""What may come between a page and its server, in Debian's Chromium: tabs, sleep, a file that goes, a stop."""

import os
import re
import signal
import time

import pytest
from playwright.sync_api import expect

from jigs.page.server import WEB
from tests.page.conftest import DESK, job_in, middle, serving, shows, stated


@pytest.fixture
def whole(tmp_path):
    with serving(job_in(tmp_path)) as found:
        yield found


SLOWLY = "const AGAIN = 1500;"


@pytest.fixture(scope="module")
def impatient(chromium):
    """For tabs that soon ask again when a server does not answer."""
    script = (WEB / "store.js").read_text("utf-8")
    assert SLOWLY in script
    context = chromium.new_context(**DESK)
    soon = script.replace(SLOWLY, "const AGAIN = 300;")
    context.route("**/web/store.js", lambda route: route.fulfill(body=soon, content_type="text/javascript"))
    yield context
    context.close()


@pytest.fixture(scope="module")
def second(impatient, all_pages):
    """Another tab of the page that `quick_torus` has in one."""
    return opened(impatient, all_pages("garland", True))


def opened(context, served):
    tab = context.new_page()
    tab.goto(served.address)
    expect(tab.locator("#form canvas")).to_be_visible()
    return tab


def wide(tab):
    return tab.get_by_label("Outer diameter", exact=True).last


def put(tab, value):
    wide(tab).fill(value)
    wide(tab).press("Enter")


def outer(served):
    return stated(served)["form"]["outer_diameter"]


def until_outer(served, value, seconds=10):
    end = time.monotonic() + seconds
    while outer(served) != value and time.monotonic() < end:
        time.sleep(0.05)
    assert outer(served) == value


def test_a_second_tab_sees_what_the_first_does_and_never_writes_over_it(second, quick_torus):
    first = quick_torus.tab
    expect(wide(second)).to_have_value("250")
    put(first, "260")
    expect(wide(second)).to_have_value("260")
    second.route("**/api/state*", lambda route: route.abort())
    put(first, "262")
    expect(second.locator("#news")).to_contain_text("stopped")  # it hears nothing any more
    put(first, "264")
    until_outer(quick_torus, 264)
    second_sees = wide(second).input_value()
    put(second, "300")
    expect(second.get_by_role("alert").filter(has_text="changed elsewhere")).to_be_visible()
    assert second_sees != "264"
    assert outer(quick_torus) == 264
    second.unroute("**/api/state*")
    expect(second.locator("#news")).to_be_hidden(timeout=10_000)
    put(second, "250")
    expect(wide(first)).to_have_value("250")
    expect(wide(second)).to_have_value("250")


def test_what_is_half_typed_stays_when_another_tab_changes_the_same_key(second, quick_torus):
    first = quick_torus.tab
    expect(wide(second)).to_have_value("250")
    wide(second).fill("2")
    put(first, "260")
    expect(second.get_by_role("alert").filter(has_text="The file now has 260 here")).to_be_visible()
    expect(wide(second)).to_have_value("2")
    wide(second).press_sequentially("54")
    wide(second).press("Enter")
    expect(wide(first)).to_have_value("254")
    wide(second).fill("2")
    put(first, "258")
    expect(second.get_by_role("alert").filter(has_text="The file now has 258 here")).to_be_visible()
    wide(second).fill("254")  # as it was: the browser takes that for no change
    wide(second).press("Tab")
    expect(wide(second)).to_have_value("258")
    put(second, "250")
    expect(wide(first)).to_have_value("250")


def test_a_file_with_line_ends_of_another_system_is_shown_as_it_is_and_keeps_them(quick_torus):
    tab = quick_torus.tab
    tab.get_by_role("tab", name="Job file").click()
    area = tab.get_by_label("Text of the job file")
    for width in ("251", "252"):
        text = quick_torus.text.replace("diameter = 250", f"diameter = {width}").replace("\n", "\r\n")
        quick_torus.job.write_bytes(text.encode())
        expect(area).to_have_value(re.compile(width))
    area.press("Control+End")
    area.press_sequentially("# mine")
    tab.get_by_role("button", name="Write the file").click()
    expect(tab.get_by_role("button", name="Write the file")).to_be_disabled()
    assert quick_torus.job.read_bytes() == f"{text}# mine".encode()
    quick_torus.job.write_text(quick_torus.text, "utf-8")
    shows(tab, quick_torus.text)


def test_who_types_goes_on_typing_when_there_is_news(quick_torus):
    tab, fresh = quick_torus.tab, quick_torus.text + "# new\n"
    for pane, label in (("Wood", "Another wood"), ("Check", "Mounted off centre")):
        tab.get_by_role("tab", name=pane).click()
        field = tab.get_by_label(label)
        field.focus()
        quick_torus.job.write_text(fresh, "utf-8")
        shows(tab, fresh)
        expect(field).to_be_focused()
        fresh += "# newer\n"


SOON = "() => { window.had = AbortSignal.timeout; AbortSignal.timeout = () => had.call(AbortSignal, 200); }"


def test_a_question_that_nobody_answers_holds_up_no_other(quick_torus):
    tab = quick_torus.tab
    tab.route("**/api/try", lambda route: None)
    tab.evaluate(SOON)
    x, y = middle(tab, "rim")
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.mouse.move(x + 4, y)
    expect(tab.locator("#news")).to_contain_text("does not answer")
    tab.evaluate("AbortSignal.timeout = had")
    tab.unroute("**/api/try")
    with tab.expect_response("**/api/try"):
        tab.mouse.move(x + 8, y)
    tab.keyboard.press("Escape")
    tab.mouse.up()


def test_after_a_sleep_the_page_goes_on_by_itself(quick_torus):
    tab = quick_torus.tab
    quick_torus.process.send_signal(signal.SIGSTOP)
    os.waitid(os.P_PID, quick_torus.process.pid, os.WSTOPPED)  # asleep
    before = quick_torus.job.read_text("utf-8")
    assert "outer_diameter = 250" in before
    quick_torus.job.write_text(before.replace("outer_diameter = 250", "outer_diameter = 255"), "utf-8")
    quick_torus.process.send_signal(signal.SIGCONT)
    expect(wide(tab)).to_have_value("255")
    expect(tab.locator("#news")).to_contain_text("changed on disk")
    tab.context.set_offline(True)
    put(tab, "270")
    expect(tab.locator("#news")).to_contain_text("server")
    assert outer(quick_torus) == 255
    tab.context.set_offline(False)
    expect(tab.locator("#news")).not_to_contain_text("stopped")
    assert wide(tab).input_value() == "270"  # what was typed is not lost
    wide(tab).press("Enter")
    expect(tab.get_by_role("alert").filter(has_text="does not answer")).to_have_count(0)
    until_outer(quick_torus, 270)


def test_a_file_that_cannot_be_read_shows_where_and_no_number_of_the_job_before(quick_torus):
    tab, thin = quick_torus.tab, quick_torus.text.replace("core_opening = 20", "core_opening = 44")
    quick_torus.job.write_text(thin, "utf-8")
    expect(tab.locator("#section .marks")).to_contain_text("Wall between core and surface")
    quick_torus.job.write_text(thin.replace("= 44", "= = 44"), "utf-8")
    expect(tab.locator("#verdict")).to_contain_text("Faded pictures are of the job before")
    expect(tab.locator("#section .marks")).to_have_text("")
    expect(tab.get_by_text("Nothing to fill in")).to_be_visible()
    tab.get_by_role("tab", name="Check").click()
    line = thin.split("core_opening")[0].count("\n") + 1
    expect(tab.locator("#pane .findings")).to_contain_text(f"Line {line}: cannot be read")


def test_a_file_that_goes_is_told_of_and_put_back_when_asked(quick_torus):
    tab, text = quick_torus.tab, quick_torus.job.read_bytes()
    quick_torus.job.unlink()
    expect(tab.locator("#news")).to_contain_text("gone from disk")
    quick_torus.job.write_bytes(text)
    expect(tab.locator("#news")).to_be_hidden()
    quick_torus.job.unlink()
    tab.get_by_role("button", name="Put the file back").click()
    expect(tab.locator("#news")).to_be_hidden()
    assert quick_torus.job.read_bytes() == text


def test_a_server_that_stops_loses_nothing_and_its_next_start_finds_the_ticks(impatient, whole):
    tab = opened(impatient, whole)
    expect(tab.locator("#undo")).to_be_disabled()  # nothing is changed yet
    tab.get_by_role("tab", name="Work").click()
    tab.get_by_role("button", name="Go to the next step").click(timeout=60_000)
    tab.get_by_role("checkbox", name="Done: step 1", exact=True).check()
    tab.get_by_role("tab", name="Job file").click()
    area = tab.get_by_label("Text of the job file")
    area.fill(area.input_value() + "# typed, not yet written\n")
    before = whole.job.read_bytes()
    whole.process.send_signal(signal.SIGINT)
    assert whole.process.wait(30) == 0
    assert "stopped" in whole.process.stdout.read()
    expect(tab.locator("#news")).to_contain_text("The server has stopped")
    tab.get_by_role("button", name="Write the file").click()
    expect(tab.get_by_role("alert").filter(has_text="does not answer")).to_be_visible()
    assert "# typed, not yet written" in area.input_value()
    assert whole.job.read_bytes() == before

    with serving(whole.job) as again:
        assert again.address.split("#")[0] == whole.address.split("#")[0]
        expect(tab.locator("#news")).to_contain_text("Open the address that jigs page printed")
        assert "# typed, not yet written" in area.input_value()
        other = opened(impatient, again)
        other.get_by_role("tab", name="Work").click()
        expect(other.get_by_role("region", name="The work")).to_contain_text("1 of")
