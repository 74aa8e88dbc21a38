"""What the page may ask of the server."""

from __future__ import annotations

import json
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from jigs.page import pictures
from jigs.page.beside import choose, files_of, make_set, stop_choosing, stop_making
from jigs.page.contract import as_json
from jigs.page.guard import API, Guard, TooMuch, answer
from jigs.page.live import Live, NotDone

WEB = Path(__file__).parent / "web"
WAIT = 20.0  # seconds, until a question for news is answered without any
STEPS = ("undo", "redo", "put-back")

Ask = Callable[[dict[str, Any]], Awaitable[object]]


def app_of(live: Live, port: int, token: str) -> Starlette:
    """The page of one job file at 127.0.0.1:`port`, for whoever has the token."""

    @asynccontextmanager
    async def running(_: Starlette) -> AsyncIterator[None]:
        live.begin()
        yield
        await live.end()

    async def change(body: dict[str, Any]) -> object:
        return await live.change(body.get("changes"), body.get("revision"))

    async def wrong(body: dict[str, Any]) -> object:
        return await pictures.wrong(live, body.get("mistakes"))

    async def fine(_: dict[str, Any]) -> object:
        return await pictures.fine(live)

    async def tried(body: dict[str, Any]) -> object:
        return await live.tried(body.get("changes"))

    async def rewrite(body: dict[str, Any]) -> object:
        text = body.get("text")
        if not isinstance(text, str):
            raise NotDone(400, "a text is missing")
        return await live.rewrite(text, body.get("revision"))

    async def make(body: dict[str, Any]) -> object:
        return await make_set(live, body.get("revision"), body.get("solids", False))

    async def lean(body: dict[str, Any]) -> object:
        return await live.without_sleds(body.get("lean"))

    async def stop(_: dict[str, Any]) -> object:
        return await stop_making(live)

    async def compare(body: dict[str, Any]) -> object:
        return await choose(live, body)

    async def stop_comparing(_: dict[str, Any]) -> object:
        return await stop_choosing(live)

    async def note(body: dict[str, Any]) -> object:
        return await live.note(body.get("id"), body.get("texts"))

    async def step(body: dict[str, Any]) -> object:
        if body.get("step") not in STEPS:
            raise NotDone(400, "no such step")
        return await live.step(body["step"])

    asks: dict[str, Ask] = {
        "change": change, "try": tried, "text": rewrite, "step": step, "lean": lean, "make": make, "make-stop": stop,
        "reading": note, "choices": compare, "choices-stop": stop_comparing, "wrong": wrong, "fine": fine,
    }  # fmt: skip
    routes = [
        Route("/", _index),
        Route(f"{API}state", _news(live)),
        Route(f"{API}picture", _picture(live)),
        Route(f"{API}pieces/{{name}}", _piece(live)),
        Route(f"{API}files/{{wanted}}", _files(live)),
        *(Route(f"{API}{name}", _posted(ask), methods=["POST"]) for name, ask in asks.items()),
        Mount("/web", StaticFiles(directory=WEB, follow_symlink=False)),
    ]
    return Starlette(routes=routes, middleware=[Middleware(Guard, port=port, token=token)], lifespan=running)


async def _index(_: Request) -> Response:
    return FileResponse(WEB / "index.html")


def _news(live: Live) -> Callable[[Request], Awaitable[Response]]:
    """The state; with `after`, once it is newer than that tick, or 204 when nothing happens for a while."""

    async def state(request: Request) -> Response:
        after = request.query_params.get("after", "")
        if not after.isdigit():
            return _json(live.state())
        newer = await live.after(int(after[:15]), WAIT)
        return Response(status_code=204) if newer is None else _json(newer)

    return state


def _picture(live: Live) -> Callable[[Request], Awaitable[Response]]:
    async def picture(_: Request) -> Response:
        try:
            return Response(await pictures.picture(live), media_type="image/png")
        except NotDone as refused:
            return answer(refused.status, refused.error)

    return picture


def _piece(live: Live) -> Callable[[Request], Awaitable[Response]]:
    async def piece(request: Request) -> Response:
        try:
            return Response(live.piece(request.path_params["name"]), media_type="application/json")
        except NotDone as refused:
            return answer(refused.status, refused.error)

    return piece


def _files(live: Live) -> Callable[[Request], Awaitable[Response]]:
    """By a jig's code, a process or "all"; a name of a file is only ever ours."""

    async def files(request: Request) -> Response:
        try:
            name, content = await files_of(live, request.path_params["wanted"])
        except NotDone as refused:
            return answer(refused.status, refused.error)
        headers = {"content-disposition": f'attachment; filename="{name}"'}
        return Response(content, media_type="application/octet-stream", headers=headers)

    return files


def _posted(ask: Ask) -> Callable[[Request], Awaitable[Response]]:
    """A question with a JSON object, its answer another; what was not done says why."""

    async def answered(request: Request) -> Response:
        try:
            body = json.loads(await request.body())
            json.dumps(body, ensure_ascii=False).encode()  # half a character is no text
        except TooMuch:
            return answer(413, "That is too much at once.")
        except (ValueError, RecursionError):
            return answer(400, "the question is not JSON")
        if not isinstance(body, dict):
            return answer(400, "the question is not JSON")
        try:
            return _json(await ask(body))
        except NotDone as refused:
            return answer(refused.status, refused.error, refused.findings)

    return answered


def _json(record: object) -> Response:
    return Response(as_json(record), media_type="application/json")
