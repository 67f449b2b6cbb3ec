"""Who may talk to the server: each rule with real requests.

The rules follow the Fetch Metadata and Fetch standards (Sec-Fetch-*, Origin),
CSP Level 3 and OWASP ASVS 5.0 (V3.5.1, V3.5.3); what a browser
sends in each attack was tried, and stands here as headers.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from flask import Flask, Response, request
from flask.testing import FlaskClient
from werkzeug.routing import IntegerConverter

from app.main import create_app, resource
from app.services import series
from app.store.workspace import Workspace
from app.web.security import MOST_BYTES, MOST_PARTS, takes_up_to

PORT = 8642
OWN = f"127.0.0.1:{PORT}"
OURS = {"Sec-Fetch-Site": "same-origin"}
VISIT = {"Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}


@pytest.fixture
def app(workspace: Workspace) -> Flask:
    made = create_app(workspace, TESTING=True, PORT=PORT, SECRET_KEY="for tests")

    @made.get("/test-photo")
    def photo() -> Response:
        return Response(b"jpeg", mimetype="image/jpeg")

    @made.get("/test-export")
    def export() -> Response:
        kept = {"Content-Disposition": "attachment"}
        return Response("<p>x</p>", mimetype="text/html", headers=kept)

    @made.post("/test-upload")
    @takes_up_to(3 * MOST_BYTES)
    def upload() -> str:
        return str(len(request.form["text"]))

    made.extensions["csrf"].exempt("tests.web.test_security.upload")
    return made


@pytest.fixture
def browser(app: Flask) -> FlaskClient:
    return _at_our_port(app)


def _at_our_port(app: Flask) -> FlaskClient:
    app.test_client_class = Browser
    return app.test_client()


class Browser(FlaskClient):
    """Asks for the server by its port, unless told another name."""

    def open(self, *args: Any, **sent: Any) -> Any:
        sent.setdefault("base_url", f"http://{OWN}")
        return super().open(*args, **sent)


def post(
    browser: FlaskClient, headers: dict[str, str], title: str = "Trays"
) -> Response:
    """A valid post to start a series, but for the headers."""
    shown = browser.get("/series/new", headers=OURS)
    data = {"title": title, "csrf_token": token(shown.text)}
    return browser.post("/series/new", data=data, headers=headers)


def token(page: str) -> str:
    found = re.search(r'name="csrf_token" value="([^"]+)"', page)
    assert found
    return found[1]


# ---- the name that was asked for


@pytest.mark.parametrize("host", [OWN, f"localhost:{PORT}"])
def test_our_own_names_are_answered(browser: FlaskClient, host: str) -> None:
    assert browser.get("/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        "127.0.0.1",  # another port's page
        "127.0.0.1:80",
        "localhost",
        f"127.0.0.1:{PORT + 1}",
        f"rebound.example:{PORT}",
        f"localhost.:{PORT}",
        f"[::1]:{PORT}",
        f"LOCALHOST:{PORT}",  # browsers write it small
        f"127.0.0.1.rebound.example:{PORT}",
        f"0.0.0.0:{PORT}",
        "",
    ],
)
def test_another_name_is_refused_before_anything_else(
    browser: FlaskClient, host: str
) -> None:
    answer = browser.get("/", headers={"Host": host})
    assert answer.status_code == 400
    assert f"http://{OWN}/" in answer.text
    assert "csrf" not in answer.text
    assert "Set-Cookie" not in answer.headers


def test_a_page_that_points_its_own_name_here_reads_and_writes_nothing(
    browser: FlaskClient, workspace: Workspace
) -> None:
    # DNS rebinding: no Sec-Fetch headers, Origin and Host agree with each other.
    rebound = {"Host": f"evil.example:{PORT}", "Origin": f"http://evil.example:{PORT}"}
    assert browser.get("/", headers=rebound).status_code == 400
    assert post(browser, rebound).status_code == 400
    assert series.listing(workspace) == ()


def test_the_frameworks_own_list_of_hosts_is_the_second_lock(app: Flask) -> None:
    with app.test_request_context("/", headers={"Host": "evil.example"}):
        # The gate is not in the way here.
        answer = app.full_dispatch_request()
    assert answer.status_code == 400


# ---- writing


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "same-origin", "Origin": f"http://{OWN}"},
        {"Sec-Fetch-Site": "same-origin"},
        {"Origin": f"http://{OWN}"},  # a browser that sends no Sec-Fetch headers
    ],
)
def test_our_own_pages_write(
    browser: FlaskClient, workspace: Workspace, headers: dict[str, str]
) -> None:
    assert post(browser, headers).status_code == 303
    assert [found.title for found in series.listing(workspace)] == ["Trays"]


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Sec-Fetch-Site": "cross-site", "Origin": "https://evil.example"},
        # A page on another local port gets SameSite cookies sent along.
        {"Sec-Fetch-Site": "same-site", "Origin": "http://127.0.0.1:9000"},
        {"Sec-Fetch-Site": "none"},
        {"Sec-Fetch-Site": ""},
        {"Sec-Fetch-Site": "cross-site", "Origin": f"http://{OWN}"},
        {"Origin": "null"},
        {"Origin": "http://127.0.0.1"},
        {"Origin": f"https://{OWN}"},
        {"Origin": f"http://localhost:{PORT}"},  # asked for as 127.0.0.1
        {"Origin": f"http://{OWN}.evil.example"},
        {"Referer": f"http://{OWN}/series/new"},
    ],
)
def test_nobody_else_writes_even_with_a_good_token(
    browser: FlaskClient, workspace: Workspace, headers: dict[str, str]
) -> None:
    assert post(browser, headers).status_code == 403
    assert series.listing(workspace) == ()


@pytest.mark.parametrize("sent", [None, "", "forged", "IjEi.aaaa.bbbb"])
def test_a_bad_form_token_saves_nothing_and_keeps_what_was_typed(
    browser: FlaskClient, workspace: Workspace, sent: str | None
) -> None:
    browser.get("/series/new", headers=OURS)
    data = {"title": "Walnut trays"} | ({} if sent is None else {"csrf_token": sent})
    answer = browser.post("/series/new", data=data, headers=OURS)
    assert answer.status_code == 400
    assert 'value="Walnut trays"' in answer.text
    assert "send it again" in answer.text
    assert series.listing(workspace) == ()
    # What it shows can be sent.
    data["csrf_token"] = token(answer.text)
    assert browser.post("/series/new", data=data, headers=OURS).status_code == 303


def test_a_token_of_another_session_does_not_fit(
    app: Flask, browser: FlaskClient
) -> None:
    other = _at_our_port(app)
    stolen = token(other.get("/series/new", headers=OURS).text)
    browser.get("/series/new", headers=OURS)
    data = {"title": "Trays", "csrf_token": stolen}
    assert browser.post("/series/new", data=data, headers=OURS).status_code == 400


def test_every_writing_address_refuses_strangers(
    app: Flask, browser: FlaskClient
) -> None:
    tried = 0
    for rule in app.url_map.iter_rules():
        for method in {"POST", "PUT", "PATCH", "DELETE"} & (rule.methods or set()):
            kinds = {name: _example(rule, name) for name in rule.arguments}
            with app.test_request_context(base_url=f"http://{OWN}"):
                address = app.url_map.bind(OWN).build(rule.endpoint, kinds, method)
            stranger = {"Sec-Fetch-Site": "cross-site"}
            answer = browser.open(address, method=method, headers=stranger)
            assert answer.status_code == 403, address
            tried += 1
    assert tried > 8


def test_reading_addresses_do_not_write(app: Flask) -> None:
    # Only what a browser may prefetch is GET; every form of ours posts.
    for template in Path(resource("templates")).glob("*.html"):
        for form in re.findall(r"<form[^>]*>", template.read_text("utf-8")):
            assert 'method="post"' in form or 'method="get"' in form, template


def _example(rule: object, name: str) -> object:
    converter = rule._converters[name]  # type: ignore[attr-defined]
    return 1 if isinstance(converter, IntegerConverter) else "x"


# ---- reading from elsewhere


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_link_from_elsewhere_opens_a_page(browser: FlaskClient, site: str) -> None:
    assert browser.get("/", headers=VISIT | {"Sec-Fetch-Site": site}).status_code == 200


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
@pytest.mark.parametrize(
    "how",
    [
        {"Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "image"},
        {"Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "script"},
        {"Sec-Fetch-Mode": "cors", "Sec-Fetch-Dest": "empty"},
        {"Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe"},
        {"Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "object"},
        {},
    ],
)
@pytest.mark.parametrize("path", ["/", "/test-photo", "/static/css/base.css"])
def test_nothing_is_read_into_other_pages(
    browser: FlaskClient, site: str, how: dict[str, str], path: str
) -> None:
    assert browser.get(path, headers=how | {"Sec-Fetch-Site": site}).status_code == 403


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
@pytest.mark.parametrize("path", ["/test-photo", "/test-export"])
def test_a_link_from_elsewhere_opens_no_photo_and_no_export(
    browser: FlaskClient, site: str, path: str
) -> None:
    answer = browser.get(path, headers=VISIT | {"Sec-Fetch-Site": site})
    assert answer.status_code == 403
    assert b"jpeg" not in answer.data


@pytest.mark.parametrize("site", ["same-origin", "none"])
def test_our_own_pages_and_the_address_bar_read_everything(
    browser: FlaskClient, site: str
) -> None:
    for path in ("/", "/test-photo", "/test-export"):
        sent = VISIT | {"Sec-Fetch-Site": site}
        assert browser.get(path, headers=sent).status_code == 200


# ---- what every answer carries


@pytest.mark.parametrize(
    ("path", "host", "status"),
    [
        ("/", OWN, 200),
        ("/nowhere", OWN, 404),
        ("/static/css/base.css", OWN, 200),
        ("/", "evil.example", 400),
        ("/test-photo", OWN, 200),
    ],
)
def test_every_answer_carries_the_protecting_headers(
    browser: FlaskClient, path: str, host: str, status: int
) -> None:
    answer = browser.get(path, headers={"Host": host})
    answer.close()
    assert answer.status_code == status
    policy = answer.headers["Content-Security-Policy"]
    assert policy.split("; ") == [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
        "object-src 'none'",
    ]
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Referrer-Policy"] == "same-origin"
    assert answer.headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert not [name for name, _ in answer.headers if name.startswith("Access-Control")]
    assert "Strict-Transport-Security" not in answer.headers


@pytest.mark.parametrize("path", ["/", "/series/new", "/nowhere"])
def test_pages_are_not_kept_by_the_browser(browser: FlaskClient, path: str) -> None:
    assert browser.get(path).headers["Cache-Control"] == "no-store"


def test_cookies_are_our_own_and_stay_here(browser: FlaskClient) -> None:
    shown = browser.get("/series/new", headers=OURS)
    data = {"theme": "dark", "csrf_token": token(shown.text), "back": "/"}
    chosen = browser.post("/theme", data=data, headers=OURS)
    for cookie in (shown.headers["Set-Cookie"], chosen.headers["Set-Cookie"]):
        name, _, rest = cookie.partition("=")
        assert name in {f"stockthread_{PORT}", "stockthread_paper"}
        marks = {mark.strip() for mark in rest.split(";")[1:]}
        assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= marks
        assert not [mark for mark in marks if mark.startswith("Domain")]


def test_nothing_of_the_workspace_is_in_the_cookie(browser: FlaskClient) -> None:
    post(browser, OURS, title="A secret build")
    for name in (f"stockthread_{PORT}", "session"):
        found = browser.get_cookie(name, domain="127.0.0.1")
        assert found is None or "secret" not in found.decoded_value


@pytest.mark.parametrize(
    "back", ["https://evil.example/", "//evil.example", "/\\evil.example", "", "/a\n/b"]
)
def test_choosing_the_paper_leads_nowhere_else(browser: FlaskClient, back: str) -> None:
    sent = {"theme": "dark", "csrf_token": token(browser.get("/").text), "back": back}
    answer = browser.post("/theme", data=sent, headers=OURS)
    assert answer.headers["Location"] == "/"


# ---- how much may come in


def test_a_request_that_is_too_large_is_refused_in_words(
    browser: FlaskClient, workspace: Workspace
) -> None:
    answer = post(browser, OURS, title="x" * MOST_BYTES)
    assert answer.status_code == 413
    assert "more than this page takes" in answer.text
    assert series.listing(workspace) == ()


def test_an_uploading_page_takes_more(browser: FlaskClient) -> None:
    text = "x" * (MOST_BYTES + 1)
    taken = browser.post("/test-upload", data={"text": text}, headers=OURS)
    assert taken.text == str(len(text))
    refused = browser.post("/test-upload", data={"text": text * 3}, headers=OURS)
    assert refused.status_code == 413


def test_a_form_with_too_many_parts_is_refused(browser: FlaskClient) -> None:
    data = {f"part-{number}": "x" for number in range(MOST_PARTS + 1)}
    kind = "multipart/form-data"
    answer = browser.post("/series/new", data=data, content_type=kind, headers=OURS)
    assert answer.status_code == 413


def test_a_text_field_that_fills_the_memory_is_refused(browser: FlaskClient) -> None:
    head = b'--x\r\nContent-Disposition: form-data; name="title"\r\n\r\n'
    answer = browser.post(
        "/series/new",
        data=head + b"x" * 600_000 + b"\r\n--x--\r\n",
        content_type="multipart/form-data; boundary=x",
        headers=OURS,
    )
    assert answer.status_code == 413
