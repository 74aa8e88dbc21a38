"""Serving the page until Ctrl-C."""

from __future__ import annotations

import os
import secrets
import socket
import webbrowser
from collections.abc import Callable
from pathlib import Path
from threading import Timer
from zlib import crc32

import uvicorn

from jigs.asked import toml_source
from jigs.asked.jobfile import form_of
from jigs.asked.toml_source import READINGS, near_file
from jigs.page.live import opened
from jigs.page.server import app_of
from jigs.words.file_names import as_typed
from jigs.words.findings import Finding, Refused

HERE = "127.0.0.1"
FIRST_PORT, PORTS = 20_000, 12_000  # below those that systems give away by themselves


def serve(path: Path, root: Path, browser: bool, tell: Callable[[str], None]) -> None:
    """Serve a job file's page on this machine alone; `tell` gets its address. Its set is made in `root`.

    Raises Refused where that cannot be.
    """
    try:
        live = opened(path, root)
    except UnicodeDecodeError as error:
        raise Refused([Finding("not-utf8", f"{path} is not UTF-8 text", "save the file as UTF-8")]) from error
    except OSError as error:
        message, near = f"{path} cannot be read: {error.strerror or error}", near_file(path)
        other = "check the name and the folder" if path.exists() else f"make one: jigs new {as_typed(path)}"
        raise Refused([Finding("no-file", message, f"did you mean {near}?" if near else other)]) from error
    # With its protocol named, asyncio sends what it has at once: else answers wait 40 ms for the browser's receipt.
    with socket.socket(proto=socket.IPPROTO_TCP) as listening:
        _bind(listening, path)
        listening.listen()  # who is quick with the address waits until the server answers
        port, token = listening.getsockname()[1], secrets.token_urlsafe(24)
        address = f"http://{HERE}:{port}/#{token}"  # what stands behind # is not sent anywhere
        tell(address)
        if browser:
            Timer(0.5, webbrowser.open, (address,)).start()
        config = uvicorn.Config(
            app_of(live, port, token), log_level="critical", access_log=False, ws="none", lifespan="on",
            timeout_graceful_shutdown=1, server_header=False,
        )  # fmt: skip
        uvicorn.Server(config).run(sockets=[listening])


def _bind(listening: socket.socket, path: Path) -> None:
    """The same port for a job each time, if it is free: what a browser keeps, such as ticks, it keeps by address."""
    if os.name == "posix":  # a start soon after another
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HERE, FIRST_PORT + crc32(bytes(path.resolve())) % PORTS))
    except OSError:
        listening.bind((HERE, 0))


def jobs_in(folder: Path) -> list[Path]:
    """The job files of a folder."""
    found = []
    for file in sorted(folder.glob("*.toml")):
        try:
            if not file.name.endswith(READINGS) and form_of(toml_source.read(file)) is not None:
                found.append(file)
        except Refused:
            continue
    return found
