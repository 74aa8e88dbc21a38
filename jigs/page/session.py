"""One job file and its changes: what stands on disk is the truth, and is never overwritten unseen."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from pathlib import Path

from jigs.asked.toml_source import read_ordinary
from jigs.files.swap_in import swap_in

MOST_UNDONE = 200
CHANGED = (
    "The file was changed on disk. The page shows it as it is now; Undo brings back what was here before."
)
GONE = "The file is gone from disk. Put it back, or stop here: the page still has its text."


class DiskChanged(Exception):
    """The file is not as it was last seen: nothing was written."""


@dataclass(frozen=True)
class _Seen:
    """The file as it was last read or written."""

    changed: int  # ns
    size: int
    print: str


@dataclass
class Session:
    """The text as the file has it, and the texts before and after it."""

    path: Path
    text: str = ""
    revision: int = 0
    gone: bool = False
    news: str = ""
    _seen: _Seen | None = None
    _emptied: bool = False  # when it was looked at last
    _before: list[str] = field(default_factory=list)
    _after: list[str] = field(default_factory=list)

    def begin(self) -> None:
        """Read the file. Raises OSError or UnicodeDecodeError where that cannot be."""
        raw = read_ordinary(self.path)
        self.text, self._seen = _decoded(raw), self._stamp(raw)

    @property
    def can_undo(self) -> bool:
        return bool(self._before)

    @property
    def can_redo(self) -> bool:
        return bool(self._after)

    def look(self) -> bool:
        """Whether the file has changed on disk, gone or come back since it was last seen; its text is taken over."""
        try:
            status = self.path.stat()
            if self._seen and (status.st_mtime_ns, status.st_size) == (self._seen.changed, self._seen.size):
                return self._back()
            raw = read_ordinary(self.path)
            text = _decoded(raw)
        except FileNotFoundError:
            was, self.gone, self.news, self._seen = self.gone, True, GONE, None
            return not was
        except (OSError, UnicodeDecodeError) as error:
            news = f"The file cannot be read: {getattr(error, 'strerror', None) or 'it is not UTF-8 text'}."
            was_news, self.news = self.news, news
            return was_news != news
        if not (raw.strip() or self._emptied):  # who writes it anew empties it first: look once more
            self._emptied = True
            return False
        self._emptied = False
        seen, self._seen = self._seen, self._stamp(raw)
        if text == self.text:
            return self._back() or bool(seen and self._seen.print != seen.print)
        self.gone, self.news = False, CHANGED
        self._become(text)
        return True

    def _back(self) -> bool:
        was, self.gone = self.gone, False
        if was:
            self.news = ""
        return was

    def keep(self, text: str) -> None:
        """Make this the file's text. Raises DiskChanged where that has changed unseen, OSError where it cannot be."""
        if text == self.text:
            return
        self._write(text)
        self._become(text)
        self.news = ""

    def undo(self) -> None:
        """Back to the text before; raises as `keep` does."""
        if self._before:
            self._write(self._before[-1])
            self._after.append(self.text)
            self.text, self.news = self._before.pop(), ""
            self.revision += 1

    def redo(self) -> None:
        """On to the text after; raises as `keep` does."""
        if self._after:
            self._write(self._after[-1])
            self._before.append(self.text)
            self.text, self.news = self._after.pop(), ""
            self.revision += 1

    def put_back(self) -> None:
        """Write a file that is gone anew. Raises DiskChanged where there is one again, OSError where it cannot be."""
        if self.path.exists():
            raise DiskChanged
        self.gone = False
        self._swap_in(self.text)
        self.news = ""

    def _become(self, text: str) -> None:
        self._before = [*self._before, self.text][-MOST_UNDONE:]
        self._after.clear()
        self.text = text
        self.revision += 1

    def _write(self, text: str) -> None:
        if self.look() or self.gone or self._emptied or self._seen is None:
            raise DiskChanged
        self._swap_in(text)

    def _swap_in(self, text: str) -> None:
        raw = text.encode()
        swap_in(self.path, raw)
        self._seen = self._stamp(raw)

    def _stamp(self, raw: bytes) -> _Seen:
        status = self.path.stat()
        return _Seen(status.st_mtime_ns, status.st_size, hashlib.sha256(raw).hexdigest())


def _decoded(raw: bytes) -> str:
    return raw.decode("utf-8-sig")
