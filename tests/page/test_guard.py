"""Who is answered: the page that this start opened, and nobody else."""

import socket
from urllib.parse import quote

import pytest
import uvicorn
from starlette.testclient import TestClient

from jigs.page.guard import API, MOST
from jigs.page.guard import TOKEN as HEADER
from jigs.page.live import opened
from jigs.page.serve import _bind, serve
from jigs.page.server import app_of
from tests.page.conftest import HERE, PORT, TOKEN

FAST_ONLY = True

EDIT = {"changes": [{"key": "form.outer_diameter", "text": "260"}], "revision": 0}


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:80", f"evil.example:{PORT}", ""])
@pytest.mark.parametrize("path", ["/", "/web/main.js", "/api/state"])
def test_another_host_is_refused(kept_page, host, path):
    assert kept_page.get(path, headers={"host": host}).status_code == 400


@pytest.mark.parametrize("token", ["", "another", TOKEN[:-1], f"{TOKEN}x"])
def test_nothing_is_told_or_changed_without_the_token(kept_page, kept_job, token):
    before = kept_job.read_bytes()
    assert kept_page.get("/api/state", headers={"page-token": token}).status_code == 403
    assert kept_page.post("/api/change", json=EDIT, headers={"page-token": token}).status_code == 403
    assert kept_job.read_bytes() == before


@pytest.mark.parametrize(
    "foreign",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:1"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
    ids=str,
)
def test_another_site_is_refused(kept_page, kept_job, foreign):
    before = kept_job.read_bytes()
    assert kept_page.post("/api/change", json=EDIT, headers=foreign).status_code == 403
    assert kept_page.get("/api/state", headers=foreign).status_code == 403
    assert kept_job.read_bytes() == before


BARRED = [
    ({"host": "evil.example"}, 400),
    ({"page-token": "another"}, 403),
    ({"origin": "http://evil.example"}, 403),
    ({"sec-fetch-site": "cross-site"}, 403),
]


@pytest.mark.parametrize(("foreign", "status"), BARRED, ids=str)
def test_every_question_is_barred_alike(kept_page, kept_job, foreign, status):
    """Whatever is added to the server: these are all that it has."""
    before = sorted(file.name for file in kept_job.parent.iterdir()), kept_job.read_bytes()
    asked = [route for route in kept_page.app.routes if route.path.startswith(API)]
    assert len(asked) >= 8
    for route in asked:
        for method in route.methods:
            answer = kept_page.request(method, route.path, json={"revision": 0}, headers=foreign)
            assert answer.status_code == status, (method, route.path)
    assert before == (sorted(file.name for file in kept_job.parent.iterdir()), kept_job.read_bytes())


@pytest.mark.parametrize("body", [b"", b"[]", b"1", b"[" * 100_000, b'{"text": "\\ud800", "revision": 0}'])
def test_every_question_wants_an_object(kept_page, body):
    for route in kept_page.app.routes:
        if route.path.startswith(API) and "POST" in route.methods:
            assert kept_page.post(route.path, content=body).status_code == 400, route.path


def test_the_page_itself_is_answered(page):
    own = {"origin": f"http://127.0.0.1:{PORT}", "sec-fetch-site": "same-origin"}
    assert page.post("/api/change", json=EDIT, headers=own).status_code == 200


@pytest.mark.parametrize(
    "path",
    ["/web/../guard.py", "/web/%2e%2e/guard.py", "/web/..%2fguard.py", "/web//etc/passwd", "/web/", "/etc/passwd",
     "/web/%2e%2e/%2e%2e/%2e%2e/pyproject.toml", "/web/none.js", "/garland.toml", "/web/..\\guard.py"],
)  # fmt: skip
def test_no_path_leads_out_of_the_page(kept_page, path):
    assert kept_page.get(path).status_code == 404


@pytest.mark.parametrize("key", ["form.nothing", "", "form", "__class__", "form.outer_diameter.x"])
def test_an_unknown_key_is_refused(kept_page, kept_job, key):
    before = kept_job.read_bytes()
    edit = {"changes": [{"key": key, "text": "1"}], "revision": 0}
    assert kept_page.post("/api/change", json=edit).status_code == 400
    assert kept_job.read_bytes() == before


@pytest.mark.parametrize(
    "body", [b"", b"[]", b"{", b"1", b"[" * 100_000, b'{"changes": 1, "revision": 0}',
             b'{"changes": [1], "revision": 0}',
             b'{"changes": [{"key": "form.species", "mm": 3, "place": [9]}], "revision": 0}']
)  # fmt: skip
def test_what_is_no_question_is_refused(kept_page, body):
    assert kept_page.post("/api/change", content=body).status_code == 400


def test_too_much_at_once_is_refused(kept_page):
    assert kept_page.post("/api/text", content=b"x" * (MOST + 1)).status_code == 413
    pieces = (b"x" * 100_000 for _ in range(MOST // 100_000 + 2))
    assert kept_page.post("/api/text", content=pieces).status_code == 413


POLICY = {
    "default-src": "'none'", "script-src": "'self'", "style-src": "'self'", "img-src": "'self' blob:",
    "connect-src": "'self'", "base-uri": "'none'", "form-action": "'none'", "frame-ancestors": "'none'",
}  # fmt: skip


def test_every_answer_forbids_what_the_page_does_not_need(kept_page):
    """Also those that refuse: none may be shown within another page, kept, or read by another site."""
    answers = [kept_page.get(path) for path in ("/", "/web/main.js", "/api/state", "/none")]
    answers += [kept_page.get("/api/state", headers=headers) for headers, _ in BARRED]
    answers += [
        kept_page.post("/api/text", content=b"x" * (MOST + 1)),
        kept_page.post("/api/change", content=b"["),
    ]
    answers += [kept_page.options("/api/change"), kept_page.put("/api/change"), kept_page.get("/api/change")]
    assert {one.status_code for one in answers} >= {200, 400, 403, 404, 405, 413}
    for answer in answers:
        told = answer.headers
        rules = [rule.strip().partition(" ") for rule in told["content-security-policy"].split(";")]
        assert {name: rest for name, _, rest in rules} == POLICY
        assert told["x-content-type-options"] == "nosniff"
        assert told["referrer-policy"] == "no-referrer"
        assert told["cross-origin-resource-policy"] == "same-origin"
        assert told["cross-origin-opener-policy"] == "same-origin"
        assert told["cache-control"] == "no-store"
        assert not [name for name in told if name.startswith("access-control")]


@pytest.mark.parametrize(
    "path", ["files/../../garland.toml", "files//etc/passwd", "files/garland_coupon.stl",
             "pieces/work/../../web", "files/C:\\windows", "files/\0", "pieces/__class__"]
)  # fmt: skip
def test_no_name_of_a_file_is_taken_from_the_page(kept_page, path):
    assert kept_page.get(f"/api/{quote(path, safe='/')}").status_code == 404
    assert (
        kept_page.get(f"/api/{path.partition('/')[0]}/{quote(path.partition('/')[2], safe='')}").status_code
        == 404
    )


def test_a_make_lands_where_the_command_said_whatever_the_page_asks(page, job):
    """The folder's name is the job's, which is no path."""
    for name in ("../elsewhere", "/elsewhere", "a/b", 'a"b', "a\\nb", ".."):
        text = f'name = "{name}"\n{job.read_text("utf-8")}'.replace('a"b', 'a\\"b')
        answer = page.post("/api/text", json={"text": text, "revision": 0})
        assert answer.status_code == 422, name
    wish = {"revision": 0, "root": "/elsewhere", "path": "/etc/passwd"}
    assert page.post("/api/make", json=wish).json()["make"]["folder"] == str(
        job.parent / "outputs" / "garland"
    )


@pytest.mark.parametrize("length", ["-1", "abc", "1e9", str(MOST + 1), "9" * 40, "\u0661"])
def test_a_body_that_says_a_wrong_length_is_refused(kept_page, length):
    assert (
        kept_page.post("/api/text", content=b"{}", headers={"content-length": length.encode()}).status_code
        == 413
    )


def test_the_server_listens_on_this_machine_alone(job):
    with socket.socket() as listening:
        _bind(listening, job)
        host, port = listening.getsockname()
        listening.listen()
        assert host == "127.0.0.1"
        with socket.socket() as asking:
            assert asking.connect_ex(("127.0.0.2", port)) != 0


def test_each_start_has_a_token_of_its_own_that_is_sent_nowhere(job, monkeypatch):
    """It stands behind # in the address; the page sends it in a header, which no other site can."""
    monkeypatch.setattr(uvicorn.Server, "run", lambda self, sockets: None)
    told = []
    for _ in range(2):
        serve(job, job.parent, False, told.append)
    places, tokens = zip(*(one.split("#") for one in told), strict=True)
    assert all(place.startswith("http://127.0.0.1:") and place.endswith("/") for place in places)
    assert len(set(tokens)) == 2
    assert all(len(token) >= 32 for token in tokens)
    assert HEADER not in ("cookie", "authorization")


def test_a_token_is_for_one_start(job):
    with TestClient(app_of(opened(job, job.parent), PORT, "of another start"), headers=HERE) as other:
        assert other.get("/api/state").status_code == 403
