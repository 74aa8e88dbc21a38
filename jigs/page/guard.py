"""Who may ask: the page that this start opened, from this machine, and nobody else."""

from __future__ import annotations

import hmac
from typing import Any

from starlette.datastructures import Headers
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from jigs.page.contract import Refusal, as_json

TOKEN = "page-token"  # the header that carries it
MOST = 1_000_000  # bytes of a request
API = "/api/"
HEADERS = {
    "content-security-policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}
_RAW = [(name.encode(), text.encode()) for name, text in HEADERS.items()]


class Guard:
    """Middleware: another Host is 400, another site or a wrong token 403, a body that is too large 413."""

    def __init__(self, app: ASGIApp, port: int, token: str) -> None:
        self._app, self._token = app, token
        self._hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}
        self._origins = {f"http://{host}" for host in self._hosts}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", []), *_RAW]
            await send(message)

        refused = self._refused(scope["path"], Headers(scope=scope))
        if refused is not None:
            await refused(scope, receive, guarded)
            return
        await self._app(scope, _limited(receive), guarded)

    def _refused(self, path: str, headers: Headers) -> Response | None:
        if headers.get("host") not in self._hosts:
            return answer(400, "This address is not the page's.")
        origin, site = headers.get("origin"), headers.get("sec-fetch-site")
        if (origin is not None and origin not in self._origins) or site in ("cross-site", "same-site"):
            return answer(403, "Only the page itself may ask.")
        if not path.startswith(API):
            return None
        given = headers.get(TOKEN, "")
        if not hmac.compare_digest(given.encode(), self._token.encode()):
            return answer(403, "Open the address that jigs page printed when it was started.")
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > MOST:
            return answer(413, "That is too much at once.")
        return None


class TooMuch(Exception):
    """A body that goes on beyond the limit."""


def _limited(receive: Receive) -> Receive:
    """Also where no length was said beforehand."""
    so_far = 0

    async def counted() -> Message:
        nonlocal so_far
        message = await receive()
        so_far += len(message.get("body", b""))
        if so_far > MOST:
            raise TooMuch
        return message

    return counted


def answer(status: int, error: str, findings: list[Any] | None = None) -> Response:
    """A refusal as the page reads it."""
    return Response(as_json(Refusal(error, findings or [])), status, media_type="application/json")
