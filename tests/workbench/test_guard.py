import pytest
from starlette.requests import HTTPConnection

from tests.workbench.asking import request
from thruline.workbench.guard import HEADERS, LINK_SECONDS, Doors


def connection(**facts):
    scope = {
        "type": "http", "method": "GET", "path": "/", "query_string": b"", "headers": [],
        "client": ("127.0.0.1", 4000), "server": ("127.0.0.1", 80), "scheme": "http",
    }  # fmt: skip
    headers = [(name.encode(), value.encode()) for name, value in facts.pop("headers", {}).items()]
    return HTTPConnection({**scope, **facts, "headers": headers})


OWN = {"host": "127.0.0.1:80"}


def test_this_machine_may_look_at_pages():
    assert Doors().refusal(connection(headers=OWN)) is None


@pytest.mark.parametrize("host", ["evil.example", "evil.example:80", "", "127.0.0.1.evil.example"])
def test_a_foreign_name_is_refused(host):
    assert Doors().refusal(connection(headers={"host": host}))[0] == 421


@pytest.mark.parametrize("origin", [None, "null", "http://evil.example", "http://127.0.0.1:81"])
@pytest.mark.parametrize("asked", [{"method": "POST"}, {"type": "websocket"}])
def test_nothing_is_changed_from_another_site(origin, asked):
    headers = OWN | ({"origin": origin} if origin else {})
    assert Doors().refusal(connection(headers=headers, **asked))[0] == 403


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
    forged = there | {"cookie": "thruline_device=guess"}
    assert doors.refusal(connection(headers=forged, **far))[0] == 401


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
