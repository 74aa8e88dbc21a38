"""A process that makes a job's set, and tells how far it is; whoever ends it half-way leaves the old set standing."""

from __future__ import annotations

import json
import os
import sys
import time
from contextlib import suppress
from pathlib import Path

from jigs.asked.jobfile import load
from jigs.asked.toml_source import read_ordinary
from jigs.page.contract import send
from jigs.page.contract_state import Listed, Make
from jigs.page.reading import said
from jigs.sets.changes_told import MOST, change_lists
from jigs.sets.made import Made
from jigs.sets.make import make
from jigs.sets.shop_book import PAGE, PAPER
from jigs.stages.shop.assumed import NOT_MEASURED
from jigs.words.file_names import of_job
from jigs.words.findings import Finding, Refused

KNOWN = (NOT_MEASURED, "lean")  # notes that the page tells of beside the set
OFTEN = 0.4  # seconds between two tellings
UNSEEN = Finding("changed", "the job file was changed on disk meanwhile", "Look at it, then make again")
FAULT = Finding("fault", "the set could not be made: a fault of the program", "report it with the job file")


def run() -> None:
    """Answer one order, a line of JSON with `text`, `path` and `root`, by lines of JSON: each a `Make`.

    If it has `lean`, what a turner who owns sleds can do without is left out; if `solids`, there are STEP files too.
    """
    order = json.loads(sys.stdin.readline())
    text, path, root = order["text"], Path(order["path"]), Path(order["root"])
    send(_made(text, path, root, order["solids"], order["lean"]))
    os._exit(0)


def _made(text: str, path: Path, root: Path, solids: bool, lean: bool) -> Make:
    told = 0.0

    def progress(done: int, total: int, what: str) -> None:
        nonlocal told
        if time.monotonic() - told > OFTEN:
            told = time.monotonic()
            send(Make("working", done=done, of=total, what=what.replace("-", " ")))

    try:
        if read_ordinary(path).decode("utf-8-sig") != text:
            raise Refused([UNSEEN])
        return _told(make(load(path), root, progress, solids, lean))
    except Refused as refused:
        return Make("refused", findings=said(refused.findings))
    except Exception:  # whatever it stumbles over: the old set stands
        return Make("failed", findings=said([FAULT]))


def _told(made: Made) -> Make:
    page, paper = (of_job(made.folder.name, file) for file in (PAGE, PAPER))
    if made.unchanged:
        lists = [Listed("nothing has changed: the whole set is right", [])]
    else:
        lists = [Listed(head, list(lines)) for head, lines in change_lists(made, MOST)]
    return Make(
        "made",
        str(made.folder),
        files=len(made.files),
        first=f"Open {page} first, or print {paper}.",
        lists=lists,
        findings=said(note for note in made.notes if note.code not in KNOWN),
    )


if __name__ == "__main__":
    with suppress(BrokenPipeError, KeyboardInterrupt):  # whoever asked is gone
        run()
