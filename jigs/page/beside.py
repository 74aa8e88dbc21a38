"""What is worked out beside the job, when it is asked for: its set made, choices compared, files of jigs."""

from __future__ import annotations

from base64 import b64decode
from collections.abc import Mapping
from contextlib import aclosing
from typing import Any

from jigs.page.choices import BadWish, wish_of
from jigs.page.contract_state import Slow, State
from jigs.page.live import Live, NotDone
from jigs.page.worker import WorkerFailed


async def make_set(live: Live, revision: object, solids: object) -> State:
    """Begin to make the set of the file as it is, with `solids` STEP files too; lean if the page shows it so.

    Raises NotDone where the page has not seen the file as it is.
    """
    if not isinstance(solids, bool):
        raise NotDone(400, "solids is true or false")

    async def tell() -> None:
        await live.tell()
        if live.maker.record.state == "made":  # which jigs of the rack are wrong is to be seen anew
            live.slow_half.again()

    async with live.turn:
        live.check(revision)
        if live.session.look() or live.session.gone:
            await live.renewed()
            raise NotDone(409, live.session.news)
        if live.maker.busy:
            raise NotDone(409, "The set is being made already.")
        job = live.reading.job
        if job is None or live.slow_state in ("refused", "failed"):
            raise NotDone(409, "Not made: this job cannot be made yet. See Check.")
        live.maker.begin(live.session.text, live.path, job.name, tell, lean=live.lean, solids=solids)
        await live.tell()
        return live.state()


async def stop_making(live: Live) -> State:
    """End the make that is under way, if one is: the old set stands."""
    await live.maker.stop()
    return live.state()


async def choose(live: Live, body: Mapping[str, Any]) -> State:
    """Begin to compare other ways to build the work. Raises NotDone."""
    async with live.turn:
        live.check(body.get("revision"))
        if live.reading.job is None:
            raise NotDone(409, "First put the job right; Check has what is wrong.")
        try:
            wish = wish_of(body, live.reading.job)
        except BadWish as bad:
            raise NotDone(400, str(bad)) from bad
        order = {"text": live.session.text, "path": str(live.path), "wish": wish}
        await live.chooser.begin(order, live.tell)
        await live.tell()
        return live.state()


async def stop_choosing(live: Live) -> State:
    """End the comparison that is under way, if one is."""
    await live.chooser.stop()
    await live.tell()
    return live.state()


async def files_of(live: Live, wanted: str) -> tuple[str, bytes]:
    """Name and content of a file: a jig by its code, all of a process, or "all". Raises NotDone."""
    jigs = [] if isinstance(live.slow, Slow) else live.slow["jigs"]
    codes = [one["code"] for one in jigs if wanted in ("all", one["process"], one["code"])]
    if not codes:
        raise NotDone(404, "There is no such jig, or it is not drawn yet.")
    try:
        async with aclosing(live.slow_half.worker.answers({"codes": codes})) as answers:
            (packed,) = [answer async for answer in answers]
    except WorkerFailed as failed:
        raise NotDone(409, "The job was changed meanwhile. Save the file again.") from failed
    if "error" in packed:
        raise NotDone(409, packed["error"])
    return packed["name"], b64decode(packed["content"])
