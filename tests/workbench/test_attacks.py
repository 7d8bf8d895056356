"""What somebody might send who means harm: nothing gets out of the folder, nothing breaks."""

import json
import os
import re
import socket
from urllib.parse import quote

import pytest

from tests.workbench.asking import act, request
from thruline.workbench.asked import MOST_BYTES

HIDDEN = "nobody may read this"
UP = [
    "../secret",
    "..%2fsecret",
    "%2e%2e%2fsecret",
    "..\\secret",
    "%00secret",
    "charts/../../secret",
]


@pytest.fixture
def hidden(folder):
    for ending in ("", ".rig.toml", ".chart.toml", ".capture", ".txt"):
        (folder.parent / f"secret{ending}").write_text(HIDDEN)
    return folder.parent / "secret"


def raw(bench, asked):
    """All that comes back for bytes that no browser would send."""
    with socket.create_connection(("127.0.0.1", bench.port), timeout=10) as line:
        line.sendall(asked)
        answer = b""
        while piece := line.recv(65536):
            answer += piece
    return answer.decode(errors="replace")


PLACES = [
    "/rig/{}/line",
    "/rig/{}/status.json",
    "/rig/found/{}",
    "/rig/found/{}.json",
    "/rig/found/charts.json?chart={}",
    "/rig/found/revisions.json?old={}",
    "/rig/found/line.json?preset={}",
    "/rig/found/bench/capture/{}",
    "/rig/found/bench/audit.json?capture={}",
    "/rig/found/book/made.json?sheet={}",
    "/rig/found/book/{}/1.png",
    "/static/{}",
    "/static/../{}",
    "/enter/{}",
]
DEEDS = [
    ("make-chart", {"new": "{}", "maker": "A", "model": "B", "kind": "drive"}),
    ("copy-chart", {"chart": "bramley-delay", "new": "{}"}),
    ("copy-chart", {"chart": "{}", "new": "mine"}),
    ("chart-fact", {"chart": "{}", "address": "chart.about", "text": "x"}),
    ("step-chart", {"chart": "{}", "back": True}),
    ("add-unit", {"chart": "{}", "seen": 1}),
]


@pytest.mark.parametrize("place", PLACES)
def test_no_address_leads_out_of_the_folder(bench, hidden, place):
    for up in (*UP, quote("../secret", safe=""), "%252e%252e%252fsecret", "9" * 40, "%C2%B2"):
        asked = f"GET {place.format(up)} HTTP/1.1\r\nHost: 127.0.0.1:{bench.port}\r\n"
        answer = raw(bench, f"{asked}Connection: close\r\n\r\n".encode())
        assert HIDDEN not in answer
        assert not answer.startswith("HTTP/1.1 5"), up


@pytest.mark.parametrize(("deed", "asked"), DEEDS)
def test_no_name_leads_out_of_the_folder(bench, folder, hidden, deed, asked):
    def around():
        return sorted(one for one in folder.parent.rglob("*") if "workshop" not in one.parts)

    before = around()
    for up in ("../secret", "/secret", "..", "a/b", "a\\b", "\0", "con.rig", "é" * 300):
        words = {key: up if value == "{}" else value for key, value in asked.items()}
        status, told = act(bench, "found", deed, **words)
        assert status == 422, up
        assert HIDDEN not in json.dumps(told)
        assert around() == before
    assert hidden.read_text() == HIDDEN


@pytest.mark.skipif(os.name != "posix", reason="links of POSIX")
def test_no_link_leads_out_of_the_folder(bench, folder, hidden):
    (folder / "linked.rig.toml").symlink_to(folder.parent / "secret.rig.toml")
    status, _, text = request(bench, "GET", "/rig/linked/line")
    assert status == 422
    assert HIDDEN not in text


def test_too_much_is_refused_before_it_is_read(bench):
    status, _, text = request(
        bench, "POST", "/rig/found/do/edit", b"x" * (MOST_BYTES + 70_000), Origin=bench.address
    )
    assert status == 413
    assert "MB" in text


BODIES = [
    b"[" * 100_000,
    b'{"edits":' + b"[" * 20_000,
    b'{"seen": ' + b"9" * 10_000 + b"}",
    b'{"seen": 1, "edits": [{"do": "set", "address": "rig.about", "value": "\\ud800"}]}',
    b'{"seen": 1, "edits": [{"do": "set", "address": "rig.about", "value": NaN}]}',
    b'{"seen": 1, "edits": [{"do": "set", "address": "rig.about", "value": 1e999}]}',
    b'{"seen": 1, "edits": [{"do": "set", "address": "rig.about", "value": "\\u0000"}]}',
    b'{"seen": 1, "edits": [{"do": "set", "address": "unit[delay].channel", "value": 1e300}]}',
    b'{"seen": 99999999999999999999999, "edits": [{"do": "remove", "address": "rig.about"}]}',
    b'{"seen": -1, "edits": [{"do": "remove", "address": "rig.about"}]}',
    b'{"seen": 1, "edits": [{"do": "set", "address": "' + b"a." * 50_000 + b'b", "value": 1}]}',
    b"\xff\xfe",
    b"",
    b"null",
]


def test_whatever_is_sent_is_answered_and_the_rig_stays_whole(bench, folder):
    file = folder / "found.rig.toml"
    for body in BODIES:
        before = file.read_bytes()
        status, _, text = request(
            bench,
            "POST",
            "/rig/found/do/edit",
            body,
            Origin=bench.address,
            content_type="text/plain",
        )
        assert status in (200, 409, 422), (body[:90], text)
        if status != 200:
            assert json.loads(text)["says"]
            assert file.read_bytes() == before
        assert request(bench, "GET", "/rig/found/line")[0] == 200


@pytest.mark.parametrize(
    "headers",
    [{}, {"Origin": "null"}, {"Origin": "http://evil.example"}, {"Referer": "http://127.0.0.1/"}],
)
def test_another_site_posts_nothing(bench, folder, headers):
    before = (folder / "found.rig.toml").read_bytes()
    for place in ("/link", "/rig/found/do/undo", "/rig/found/bench/do/panic", "/rig/found/do/edit"):
        form = {"content_type": "application/x-www-form-urlencoded", **headers}
        assert request(bench, "POST", place, b"{}", **form)[0] == 403
    assert (folder / "found.rig.toml").read_bytes() == before


def shake(bench, **headers):
    """The first row of the answer to a page that wants to follow a rig."""
    sent = {"Host": f"127.0.0.1:{bench.port}", "Sec-WebSocket-Version": "13", **headers}
    rows = "".join(f"{name}: {value}\r\n" for name, value in sent.items())
    asked = (
        "GET /rig/found/live HTTP/1.1\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
        f"Sec-WebSocket-Key: dGhydWxpbmUgdGhydWxpbg==\r\n{rows}\r\n"
    )
    with socket.create_connection(("127.0.0.1", bench.port), timeout=10) as line:
        line.sendall(asked.encode())
        return line.recv(4096).decode(errors="replace").splitlines()[0]


def test_only_its_own_pages_follow_a_rig(bench):
    assert "101" in shake(bench, Origin=bench.address)
    for other in ({}, {"Origin": "null"}, {"Origin": "http://evil.example"}):
        assert "403" in shake(bench, **other)


def test_a_name_that_was_bent_to_this_machine_is_not_answered(bench):
    evil = f"evil.example:{bench.port}"
    for method in ("GET", "POST"):
        sent = {"Host": evil, "Origin": f"http://{evil}"}
        assert request(bench, method, "/rig/found/status.json", **sent)[0] == 421
    assert "403" in shake(bench, Host=evil, Origin=f"http://{evil}")


def test_what_a_request_says_of_where_it_comes_from_is_not_believed(bench):
    cookie = "thruline_device=\xe9".encode("latin-1").decode("latin-1")
    sent = {"X_Forwarded_For": "192.0.2.9", "X_Forwarded_Host": "evil.example", "Cookie": cookie}
    assert request(bench, "GET", "/rig/found/line", **sent)[0] == 200


def test_no_script_and_no_style_stands_in_a_page(bench):
    for name in ("line", "board", "presets", "charts", "book", "stage", "find", "bench"):
        text = request(bench, "GET", f"/rig/found/{name}")[2]
        scripts = re.findall(r"<script\b[^>]*>", text)
        assert scripts
        assert all(" src=" in one or "application/json" in one for one in scripts)
        assert not re.search(r"<style|\sstyle=|\son[a-z]+=|javascript:", text)


def test_words_of_a_rig_are_never_markup(bench, folder):
    file = folder / "evil.rig.toml"
    evil = "</script><script>alert(1)</script><img src=x onerror=alert(1)>"
    text = (folder / "good.rig.toml").read_text()
    file.write_text(re.sub(r'(?m)^name = ".*"', f'name = "{evil[:60]}"', text, count=1))
    request(bench, "GET", "/rig/evil/status.json")  # a page that comes before has no words yet
    for name in ("line", "stage", "presets"):
        page = request(bench, "GET", f"/rig/evil/{name}")[2]
        assert "alert(1)" in page
        assert "<script>alert" not in page
