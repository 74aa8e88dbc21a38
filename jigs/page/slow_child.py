"""A process that works out what takes longer, so that the page's own stays free; it is ended when that is stale."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

from jigs.page.contract import as_json
from jigs.page.slow import slow


def run() -> None:
    """Answer orders, a line of JSON each with `text` and `path`, by lines of JSON; an empty one ends an answer."""
    for line in sys.stdin:
        order = json.loads(line)
        for answer in slow(order["text"], Path(order["path"])):
            _tell(as_json(answer))
        _tell(b"")
    os._exit(0)


def _tell(answer: bytes) -> None:
    sys.stdout.buffer.write(answer + b"\n")
    sys.stdout.buffer.flush()


if __name__ == "__main__":
    run()
