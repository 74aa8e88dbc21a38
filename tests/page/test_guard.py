"""Who is answered: the page that this start opened, and nobody else."""

import pytest
from starlette.testclient import TestClient

from jigs.page.guard import API, MOST
from jigs.page.live import opened
from jigs.page.server import app_of
from tests.page.conftest import HERE, PORT, TOKEN

EDIT = {"changes": [{"key": "form.outer_diameter", "text": "260"}], "revision": 0}


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:80", f"evil.example:{PORT}", ""])
@pytest.mark.parametrize("path", ["/", "/web/main.js", "/api/state"])
def test_another_host_is_refused(page, host, path):
    assert page.get(path, headers={"host": host}).status_code == 400


@pytest.mark.parametrize("token", ["", "another", TOKEN[:-1], f"{TOKEN}x"])
def test_nothing_is_told_or_changed_without_the_token(page, job, token):
    before = job.read_bytes()
    assert page.get("/api/state", headers={"page-token": token}).status_code == 403
    assert page.post("/api/change", json=EDIT, headers={"page-token": token}).status_code == 403
    assert job.read_bytes() == before


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
def test_another_site_is_refused(page, job, foreign):
    before = job.read_bytes()
    assert page.post("/api/change", json=EDIT, headers=foreign).status_code == 403
    assert page.get("/api/state", headers=foreign).status_code == 403
    assert job.read_bytes() == before


BARRED = [
    ({"host": "evil.example"}, 400),
    ({"page-token": "another"}, 403),
    ({"origin": "http://evil.example"}, 403),
    ({"sec-fetch-site": "cross-site"}, 403),
]


@pytest.mark.parametrize(("foreign", "status"), BARRED, ids=str)
def test_every_question_is_barred_alike(page, job, foreign, status):
    """Whatever is added to the server: these are all that it has."""
    before = sorted(file.name for file in job.parent.iterdir()), job.read_bytes()
    asked = [route for route in page.app.routes if route.path.startswith(API)]
    assert len(asked) >= 8
    for route in asked:
        for method in route.methods:
            answer = page.request(method, route.path, json={"revision": 0}, headers=foreign)
            assert answer.status_code == status, (method, route.path)
    assert before == (sorted(file.name for file in job.parent.iterdir()), job.read_bytes())


@pytest.mark.parametrize("body", [b"", b"[]", b"1", b"[" * 100_000, b'{"text": "\\ud800", "revision": 0}'])
def test_every_question_wants_an_object(page, body):
    for route in page.app.routes:
        if route.path.startswith(API) and "POST" in route.methods:
            assert page.post(route.path, content=body).status_code == 400, route.path


def test_the_page_itself_is_answered(page):
    own = {"origin": f"http://127.0.0.1:{PORT}", "sec-fetch-site": "same-origin"}
    assert page.post("/api/change", json=EDIT, headers=own).status_code == 200


@pytest.mark.parametrize(
    "path",
    ["/web/../guard.py", "/web/%2e%2e/guard.py", "/web/..%2fguard.py", "/web//etc/passwd", "/web/", "/etc/passwd",
     "/web/%2e%2e/%2e%2e/%2e%2e/pyproject.toml", "/web/none.js", "/garland.toml", "/web/..\\guard.py"],
)  # fmt: skip
def test_no_path_leads_out_of_the_page(page, path):
    assert page.get(path).status_code == 404


@pytest.mark.parametrize("key", ["form.nothing", "", "form", "__class__", "form.outer_diameter.x"])
def test_an_unknown_key_is_refused(page, job, key):
    before = job.read_bytes()
    edit = {"changes": [{"key": key, "text": "1"}], "revision": 0}
    assert page.post("/api/change", json=edit).status_code == 400
    assert job.read_bytes() == before


@pytest.mark.parametrize(
    "body", [b"", b"[]", b"{", b"1", b"[" * 100_000, b'{"changes": 1, "revision": 0}',
             b'{"changes": [1], "revision": 0}',
             b'{"changes": [{"key": "form.species", "mm": 3, "place": [9]}], "revision": 0}']
)  # fmt: skip
def test_what_is_no_question_is_refused(page, body):
    assert page.post("/api/change", content=body).status_code == 400


def test_too_much_at_once_is_refused(page):
    assert page.post("/api/text", content=b"x" * (MOST + 1)).status_code == 413
    pieces = (b"x" * 100_000 for _ in range(MOST // 100_000 + 2))
    assert page.post("/api/text", content=pieces).status_code == 413


def test_every_answer_forbids_what_the_page_does_not_need(page):
    for path in ("/", "/web/main.js", "/api/state", "/none"):
        policy = page.get(path).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert page.get(path).headers["x-content-type-options"] == "nosniff"


def test_a_token_is_for_one_start(job):
    with TestClient(app_of(opened(job, job.parent), PORT, "of another start"), headers=HERE) as other:
        assert other.get("/api/state").status_code == 403
