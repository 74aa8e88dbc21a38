"""Work that nothing else waits for until its end, in a process of its own where the system splits one off safely."""

from __future__ import annotations

import os
import pickle
import sys
import threading
import traceback
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from tempfile import TemporaryFile
from typing import IO, NoReturn, TypeVar, cast

from jigs.words.findings import Refused

T = TypeVar("T")


@contextmanager
def apart(work: Callable[[], T]) -> Iterator[Callable[[], T]]:
    """Begin it; what is yielded waits for its end, and returns what it does or raises the Refused that it does.

    Two processes have two cores, two threads of Python one. On Linux a process of one thread is split in two, which
    hands all that is known over for nothing; elsewhere it is a thread.
    """
    if sys.platform != "linux" or threading.active_count() > 1:
        with ThreadPoolExecutor(1) as own:
            yield own.submit(work).result
        return
    with TemporaryFile() as told:
        child = os.fork()
        if child == 0:
            _do(work, told)
        ended: list[int] = []

        def result() -> T:
            ended.append(os.waitpid(child, 0)[1])
            return cast(T, _read(told, ended[0]))

        try:
            yield result
        finally:
            if not ended:
                os.kill(child, 9)
                os.waitpid(child, 0)


def _do(work: Callable[[], T], told: IO[bytes]) -> NoReturn:
    """In the new process: nothing of it comes back but what it writes. It holds no lock, should the other be killed."""
    try:
        os.closerange(3, told.fileno())
        os.closerange(told.fileno() + 1, os.sysconf("SC_OPEN_MAX"))
        try:
            said: tuple[str, object] = ("done", work())
        except Refused as error:
            said = ("refused", error.findings)
        except Exception:
            said = ("failed", traceback.format_exc())
        pickle.dump(said, told)
        told.flush()
        os._exit(0)
    finally:
        os._exit(1)


def _read(told: IO[bytes], status: int) -> object:
    if status:
        raise RuntimeError(f"a process of this make ended with status {status}")
    told.seek(0)
    how, what = pickle.load(told)
    if how == "refused":
        raise Refused(what)
    if how == "failed":
        raise RuntimeError(what)
    return cast(object, what)
