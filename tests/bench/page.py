"""The live page in a browser, as multiples of an empty round trip and of what the browser draws by itself.

Run as `python -m tests.bench.page`. What is dragged is a torus's tube, then a point of a vessel, each once before it
counts. Nothing here can fail on time. Where no graphics card draws, most of it is the browser's own time: once with
everything drawn by software GL, once with only the form, which is what Chromium itself does without a card.
"""

import asyncio
import re
import shutil
import statistics
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.async_api import Browser, Page, async_playwright

from tests.conftest import ARGUMENTS, CONFIGS

DRAGGED = (("garland", "tube", (0, -1)), ("sorrel", "outside-4", (1, 0)))
STEPS, EACH = 120, 1 / 60  # of the hand, which waits for no picture; seconds
ONLY_FORM = [one for one in ARGUMENTS if "angle" not in one] + ["--disable-gpu"]
WATCH = """() => {
  window.seen = { drawn: [], answers: [], hands: [] };
  document.addEventListener("drawn", () => seen.drawn.push(performance.now()));
  document.addEventListener("pointermove", () => seen.hands.push(performance.now()), true);
  const ask = window.fetch;
  window.fetch = async (...all) => {
    const begun = performance.now(), answer = await ask(...all);
    if (String(all[0]).endsWith("/try")) seen.answers.push([begun, performance.now()]);
    return answer;
  };
}"""
EMPTY = """async (times) => {
  const token = { headers: { "page-token": sessionStorage.getItem("page-token") } }, took = [];
  for (let k = 0; k < times; k += 1) {
    const begun = performance.now();
    await (await fetch("/web/icon.svg?" + k, token)).text();
    took.push(performance.now() - begun);
  }
  return took;
}"""
FRAMES = """(ms) => new Promise((done) => {
  const box = document.createElement("div"), begun = performance.now();
  box.style.cssText = "position:fixed;left:0;top:0;width:300px;height:300px;background:#a2672e";
  document.body.append(box);
  let frames = 0;
  const next = () => {
    frames += 1;
    box.style.left = `${frames % 200}px`;
    if (performance.now() - begun < ms) return requestAnimationFrame(next);
    box.remove();
    done((1000 * frames) / (performance.now() - begun));
  };
  requestAnimationFrame(next);
})"""


def first_after(times: list[float], begun: float) -> float | None:
    return next((at - begun for at in times if at >= begun), None)


async def dragged(tab: Page, handle: str, way: tuple[int, int]) -> dict[str, float]:
    """Medians, ms: from the hand to a picture, from asking to the server's picture; pictures a second."""
    box = await tab.locator(f'[data-id="{handle}"] .dot').bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    await tab.mouse.move(x, y)
    await tab.mouse.down()
    await tab.evaluate("seen.drawn.length = seen.answers.length = seen.hands.length = 0")
    begun = await tab.evaluate("performance.now()")
    moves = []
    for k in range(STEPS):
        far = abs((k + 24) % 48 - 24)  # pixels, there and back
        move = tab.mouse.move(x + far * way[0], y + far * way[1])
        moves.append(asyncio.create_task(move))
        await asyncio.sleep(EACH)
    await asyncio.gather(*moves)
    ended = await tab.evaluate("performance.now()")
    share = await tab.evaluate(
        "(() => { const one = document.querySelector('#form canvas'); return one.width / one.clientWidth })()"
    )
    await tab.wait_for_timeout(1000)
    seen = await tab.evaluate("seen")
    await tab.keyboard.press("Escape")
    await tab.mouse.up()
    drawn = seen["drawn"]
    hand = [one for at in seen["hands"] if (one := first_after(drawn, at)) is not None]
    asked = [end - at + (first_after(drawn, end) or 0.0) for at, end in seen["answers"]]
    return {
        "hand": statistics.median(hand),
        "server": statistics.median(asked),
        "each second": 1000 * sum(begun <= at <= ended for at in drawn) / (ended - begun),
        "share": share,
    }


async def measured(browser: Browser, name: str, handle: str, way: tuple[int, int], folder: Path) -> None:
    job = shutil.copy(CONFIGS / f"{name}.toml", folder)
    command = [
        sys.executable, "-c", "from jigs.start import command; command()", "page", "--no-browser", str(job),
    ]  # fmt: skip
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout is not None
        found = re.search(r"http\S+", server.stdout.readline())
        assert found is not None
        tab = await browser.new_page(viewport={"width": 1280, "height": 800})
        await tab.goto(found[0])
        await tab.get_by_text("Can be made").wait_for(timeout=120_000)
        empty, frames = statistics.median(await tab.evaluate(EMPTY, 30)), await tab.evaluate(FRAMES, 1500)
        await tab.evaluate(WATCH)
        took = [await dragged(tab, handle, way) for _ in range(2)][-1]
        print(
            f"{name}: an empty round trip takes {empty:.1f} ms, a moving square is drawn {frames:.0f} times a second"
        )
        print(f"  hand to picture     {took['hand']:6.0f} ms, {took['hand'] / empty:5.1f} round trips")
        print(f"  the server's own    {took['server']:6.0f} ms, {took['server'] / empty:5.1f} round trips")
        print(
            f"  pictures a second   {took['each second']:6.1f},    {took['each second'] / frames:5.2f} of the square's,"
            f" at {took['share']:.2f} of the pixels each way"
        )
        await tab.close()
        server.kill()


async def run() -> None:
    with TemporaryDirectory() as folder:
        async with async_playwright() as playwright:
            shutil.copy(CONFIGS / "shed.toml", folder)
            for title, arguments in (
                ("All by software GL", ARGUMENTS),
                ("The form by software GL", ONLY_FORM),
            ):
                print(title)
                browser = await playwright.chromium.launch(
                    executable_path=shutil.which("chromium"), args=arguments
                )
                for name, handle, way in DRAGGED:
                    await measured(browser, name, handle, way, Path(folder))
                await browser.close()


if __name__ == "__main__":
    asyncio.run(run())
