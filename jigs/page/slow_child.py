"""A process that works out what takes longer, so that the page's own stays free; it is ended when that is stale."""

from __future__ import annotations

import json
import os
import sys
from base64 import b64encode
from contextlib import suppress
from pathlib import Path

from jigs.page.choices import choices
from jigs.page.contract import send
from jigs.page.packed import packed
from jigs.page.slow import slow
from jigs.sets.rack import Proof
from jigs.words.findings import Refused


def run() -> None:
    """Answer orders, a line of JSON each, by lines of JSON; an empty one ends an answer.

    `text`, `path`, `root` and `lean` ask for the slow half, `codes` for files of the jigs that it drew last,
    `text`, `path` and `wish` for choices.
    """
    proof: Proof | None = None
    for line in sys.stdin:
        order = json.loads(line)
        if "codes" in order:
            send(_files(proof, order["codes"]))
        elif "wish" in order:
            send(choices(order["text"], Path(order["path"]), order["wish"]))
        else:
            proof = None
            for answer in slow(order["text"], Path(order["path"]), Path(order["root"]), order["lean"]):
                if isinstance(answer, Proof):
                    proof = answer
                else:
                    send(answer)
        sys.stdout.buffer.write(b"\n")
        sys.stdout.buffer.flush()
    os._exit(0)


def _files(proof: Proof | None, codes: list[str]) -> dict[str, str]:
    if proof is None:
        return {"error": "The jigs are not drawn yet."}
    try:
        name, content = packed(proof, codes)
    except Refused as refused:
        return {"error": " ".join(one.told for one in refused.findings)}
    return {"name": name, "content": b64encode(content).decode()}


if __name__ == "__main__":
    with suppress(BrokenPipeError, KeyboardInterrupt):  # whoever asked is gone
        run()
