"""Which pictures lie in a job's folder, and what they were drawn from. Light: a make asks it too."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from jigs.files.manifest import sha256

FOLDER = "look"  # in the job's folder
STAMP = "look.json"  # in that


def stale_looks(folder: Path, inputs: str) -> set[str]:
    """What of a job's folder, by names with forward slashes, was drawn from other inputs (`input_print`)."""
    stamp = _read(folder / FOLDER)
    if not stamp or stamp["inputs_sha256"] == inputs:
        return set()
    return {f"{FOLDER}/{name}" for name in (*stamp["files"], STAMP)}


def stamped(inputs: str, old: Path, fresh: Path, files: Iterable[str]) -> None:
    """Finish the folder `fresh`, in which these files were drawn from the inputs.

    Carries over from `old` other pictures drawn from the same, and whatever the user put there.
    """
    stamp, names = _read(old), set(files)
    known = stamp.get("files", {})
    if stamp.get("inputs_sha256") == inputs:
        kept = {name: digest for name, digest in known.items() if name not in names}
    else:
        kept = {}
    for file in sorted(old.iterdir()) if old.is_dir() else ():
        stranger = file.name not in {*known, *names, STAMP}
        if file.is_file() and (stranger or file.name in kept):
            shutil.copy2(file, fresh / file.name)
    kept |= {name: sha256((fresh / name).read_bytes()) for name in names}
    content = {"inputs_sha256": inputs, "files": dict(sorted(kept.items()))}
    (fresh / STAMP).write_text(json.dumps(content, indent=1) + "\n", "utf-8")


def _read(folder: Path) -> dict[str, Any]:
    """The stamp, empty where there is none that can be read."""
    try:
        content = json.loads((folder / STAMP).read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    sound = (
        isinstance(content, dict) and isinstance(content.get("files"), dict) and "inputs_sha256" in content
    )
    return content if sound else {}
