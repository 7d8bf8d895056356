import pytest
from starlette.requests import HTTPConnection

from tests.workbench.asking import request
from thruline.workbench.guard import HEADERS, LINK_SECONDS, Doors


def connection(**facts):
    scope = {
        "type": "http", "method": "GET", "path": "/", "query_string": b"", "headers": [],
        "client": ("127.0.0.1", 4000), "server": ("127.0.0.1", 80), "scheme": "http",
    }  # fmt: skip
    given = facts.pop("headers", {})
    pairs = given.items() if isinstance(given, dict) else given
    headers = [(name.encode(), value.encode("latin-1")) for name, value in pairs]
    return HTTPConnection({**scope, **facts, "headers": headers})


OWN = {"host": "127.0.0.1:80"}


def test_this_machine_may_look_at_pages():
    assert Doors().refusal(connection(headers=OWN)) is None


@pytest.mark.parametrize("host", ["evil.example", "evil.example:80", "", "127.0.0.1.evil.example"])
def test_a_foreign_name_is_refused(host):
    assert Doors().refusal(connection(headers={"host": host}))[0] == 421


@pytest.mark.parametrize(
    "host",
    [
        "127.0.0.1:80/enter/x?",
        "127.0.0.1:80#",
        "127.0.0.1:port",
        "127.0.0.1:",
        "me@127.0.0.1",
        "127.0.0.1:80\xe9",
        "[::1",
        "::1",
        "127.0.0.1:80, evil.example",
    ],
)
def test_a_name_that_would_change_what_is_asked_for_is_refused(host):
    assert Doors().refusal(connection(headers={"host": host}))[0] == 421


def test_two_names_are_refused():
    twice = [("host", "127.0.0.1:80"), ("host", "evil.example")]
    assert Doors().refusal(connection(headers=twice))[0] == 421
    assert Doors().refusal(connection(headers={}))[0] == 421


@pytest.mark.parametrize(
    "origin",
    [
        None,
        "null",
        "",
        "http://evil.example",
        "http://127.0.0.1:81",
        "https://127.0.0.1:80",
        "http://127.0.0.1:80.evil.example",
        "http://127.0.0.1:80@evil.example",
        "http://evil.example/127.0.0.1:80",
        "http://[",
        "//127.0.0.1:80",
    ],
)
@pytest.mark.parametrize("asked", [{"method": "POST"}, {"type": "websocket"}])
def test_nothing_is_changed_from_another_site(origin, asked):
    headers = OWN | ({"origin": origin} if origin else {})
    assert Doors().refusal(connection(headers=headers, **asked))[0] == 403


def test_two_origins_are_none():
    twice = [*OWN.items(), ("origin", "http://127.0.0.1:80"), ("origin", "http://evil.example")]
    assert Doors().refusal(connection(headers=twice, method="POST"))[0] == 403


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "PRESS"])
def test_only_looking_needs_no_origin(method):
    assert Doors().refusal(connection(headers=OWN, method=method))[0] == 403
    for safe in ("GET", "HEAD"):
        assert Doors().refusal(connection(headers=OWN, method=safe)) is None


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_another_site_makes_the_browser_fetch_nothing(site):
    picture = OWN | {"sec-fetch-site": site, "sec-fetch-mode": "no-cors", "sec-fetch-dest": "image"}
    assert Doors().refusal(connection(headers=picture))[0] == 403
    frame = picture | {"sec-fetch-mode": "navigate", "sec-fetch-dest": "iframe"}
    assert Doors().refusal(connection(headers=frame))[0] == 403
    link = picture | {"sec-fetch-mode": "navigate", "sec-fetch-dest": "document"}
    assert Doors().refusal(connection(headers=link)) is None


@pytest.mark.parametrize("site", ["none", "same-origin"])
def test_its_own_pages_and_typed_addresses_are_fetched(site):
    assert Doors().refusal(connection(headers=OWN | {"sec-fetch-site": site})) is None


def test_its_own_pages_may_change_things():
    headers = OWN | {"origin": "http://127.0.0.1:80"}
    assert Doors().refusal(connection(headers=headers, method="POST")) is None


def test_another_device_needs_a_link_that_works_once():
    doors = Doors(names=("192.0.2.7",))
    there = {"host": "192.0.2.7:80"}
    far = {"client": ("192.0.2.9", 4000)}
    assert doors.refusal(connection(headers=there, **far))[0] == 401
    token = doors.new_link()
    assert doors.refusal(connection(headers=there, path=f"/enter/{token}", **far)) is None
    shown = doors.enter(token)
    assert doors.enter(token) is None
    inside = there | {"cookie": f"thruline_device={shown}"}
    assert doors.refusal(connection(headers=inside, **far)) is None
    for guess in ("guess", "", "\xe9", shown[:-1], token):
        forged = there | {"cookie": f"thruline_device={guess}"}
        assert doors.refusal(connection(headers=forged, **far))[0] == 401


@pytest.mark.parametrize("path", ["/", "/rig/good/line", "/enter", "/rig/enter/x", "//enter/x"])
def test_a_device_without_a_link_sees_nothing_but_the_door(path):
    doors = Doors(names=("192.0.2.7",))
    there = {"host": "192.0.2.7:80", "x-forwarded-for": "127.0.0.1", "forwarded": "for=127.0.0.1"}
    far = {"client": ("192.0.2.9", 4000), "path": path}
    assert doors.refusal(connection(headers=there, **far))[0] == 401
    assert doors.refusal(connection(headers=there, **far | {"client": None}))[0] == 401
    tricked = there | {"host": "192.0.2.7:80/enter/x?"}
    assert doors.refusal(connection(headers=tricked, **far))[0] == 421


def test_old_links_are_forgotten():
    now = [0.0]
    doors = Doors(clock=lambda: now[0])
    tokens = set()
    for _ in range(5):
        tokens.add(doors.new_link())
        now[0] += LINK_SECONDS + 1
    assert len(tokens) == 5
    assert len(doors._links) == 1


def test_a_link_grows_old():
    now = [0.0]
    doors = Doors(clock=lambda: now[0])
    token = doors.new_link()
    now[0] = LINK_SECONDS + 1
    assert doors.enter(token) is None
    assert doors.enter("guess") is None


def test_every_answer_carries_the_headers(bench):
    for place in ("/", "/rig/found/line", "/static/style.css", "/nowhere"):
        _, headers, _ = request(bench, "GET", place)
        assert {name: headers.get(name) for name in HEADERS} == HEADERS
    assert "unsafe" not in str(HEADERS)
    assert request(bench, "GET", "/", Host="evil.example")[0] == 421
