import asyncio
import json
from contextlib import suppress

import pytest

from tests.workbench.asking import request
from thruline.workbench import server
from thruline.workbench.content import Content
from thruline.workbench.pages import line

MIX = {"do": "set", "address": "preset[2].name", "value": "New name"}


def test_the_front_lists_the_rigs_of_the_folder(bench):
    status, _, text = request(bench, "GET", "/rigs")
    assert "Orchard Street" in text
    assert status == 200
    assert "/rig/found/line" in text
    assert "/rig/good/line" in text


@pytest.mark.parametrize(
    "place",
    [
        "/rig/nowhere/line", "/rig/found/nowhere", "/rig/%2e%2e/line", "/rig/..%2f..%2fetc/line",
        "/rig/found/%2e%2e.json", "/static/../server.py", "/static/%2e%2e/server.py",
        "/rig/found/line.json?preset=9999", "/rig/found/line.json?preset=x",
    ],
)  # fmt: skip
def test_what_is_not_there_is_said_and_nothing_else_is_reached(bench, place):
    status, _, text = request(bench, "GET", place)
    assert status in (404, 422)
    assert "Traceback" not in text


def test_a_link_out_of_the_folder_is_refused(bench, folder, tmp_path):
    (tmp_path / "secret.rig.toml").write_text("x")
    (folder / "out.rig.toml").symlink_to(tmp_path / "secret.rig.toml")
    assert "leads out of the folder" in request(bench, "GET", "/rig/out/line")[2]


def test_links_need_a_shared_workbench(bench):
    code, _, text = request(bench, "POST", "/link", "{}", Origin=bench.address)
    assert code == 422
    assert "--share" in text
    bench.bench.address = "http://192.0.2.7:1"
    told = json.loads(request(bench, "POST", "/link", "{}", Origin=bench.address)[2])
    assert told["link"].startswith("http://192.0.2.7:1/enter/")
    token = told["link"].rpartition("/")[2]
    code, headers, _ = request(bench, "GET", f"/enter/{token}")
    assert code == 303
    assert "HttpOnly" in headers["set-cookie"]
    assert "does not work any more" in request(bench, "GET", f"/enter/{token}")[2]


def test_a_fault_of_the_program_is_told_and_the_next_page_works(bench, monkeypatch):
    monkeypatch.setattr(line, "CONTENT", Content(data=lambda *_: 1 / 0))
    code, _, text = request(bench, "GET", "/rig/good/line.json")
    assert code == 500
    assert "went wrong here (ZeroDivisionError)" in json.loads(text)["says"]
    assert request(bench, "GET", "/rig/good/units.json")[0] == 200


def test_where_nothing_is_a_page_says_so_and_leads_on(bench):
    code, _, text = request(bench, "GET", "/nope", Accept="text/html")
    assert code == 404
    assert "there is nothing at" in text
    assert 'href="/rigs"' in text
    code, _, text = request(bench, "GET", "/nope.json")
    assert (code, json.loads(text)) == (404, {"says": 'there is nothing at "/nope.json"'})


def test_watching_goes_on_after_a_fault_and_tells_it_once(monkeypatch, caplog):
    monkeypatch.setattr(server, "WATCH_SECONDS", 0)
    looked = []

    async def look():
        looked.append(1)
        if len(looked) == 4:
            raise asyncio.CancelledError
        raise RuntimeError("the library")

    with suppress(asyncio.CancelledError):
        asyncio.run(server._watch(look))
    assert len(looked) == 4
    assert [one.getMessage() for one in caplog.records] == ["watching went wrong, and goes on"]
