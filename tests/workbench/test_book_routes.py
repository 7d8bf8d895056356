"""Prints over their addresses."""

import http.client
import json
import threading

import pytest

from tests.workbench.asking import act, request


def get(bench, place):
    connection = http.client.HTTPConnection("127.0.0.1", bench.port, timeout=120)
    connection.request("GET", place)
    answer = connection.getresponse()
    content = answer.read()
    connection.close()
    return answer.status, dict(answer.getheaders()), content


def made(bench, words):
    status, _, content = get(bench, f"/rig/good/book/made.json?{words}")
    assert status == 200
    return json.loads(content)


def test_an_edit_is_answered_while_a_print_is_made(bench):
    found = []
    making = threading.Thread(target=lambda: found.append(made(bench, "")))
    act(bench, "good", "undo")  # the rig is open now
    making.start()
    status, told = act(bench, "good", "edit", seen=1, edits=[
        {"do": "set", "address": "rig.name", "value": "Second chair"}])  # fmt: skip
    assert status == 200, told
    assert found == []
    making.join(120)
    assert len(found[0]["pages"]) > 30
    assert made(bench, "sheet=settings")["key"] != found[0]["key"]


def test_pages_and_the_pdf(bench):
    told = made(bench, "sheet=settings&paper=letter")
    assert told == made(bench, "sheet=settings&paper=letter")
    assert (told["pages"][0]["width"], told["pages"][0]["height"]) == (612, 792)
    assert told["pages"][0]["part"].startswith("Settings sheet")
    status, headers, content = get(bench, f"/rig/good/book/{told['key']}/small/1.png")
    assert (status, headers["content-type"]) == (200, "image/png")
    assert content.startswith(b"\x89PNG")
    assert "immutable" in headers["cache-control"]
    _, _, large = get(bench, f"/rig/good/book/{told['key']}/large/1.png")
    assert len(large) > 1.5 * len(content)
    status, _, text = request(bench, "GET", f"/rig/good/book/{told['key']}/huge/1.png")
    assert (status, "small, large" in text) == (422, True)
    status, headers, content = get(bench, "/rig/good/book/print.pdf?sheet=settings&paper=letter")
    assert (status, len(content)) == (200, told["bytes"])
    assert headers["content-disposition"] == "attachment; filename*=UTF-8''good.settings.pdf"
    status, _, text = request(bench, "GET", f"/rig/good/book/{told['key']}/small/99.png")
    assert (status, "the last is" in text) == (422, True)


@pytest.mark.parametrize(
    "place",
    ["made.json?paper=a5", "made.json?sheet=recipes", "print.pdf?paper=", "old/small/1.png"],
)
def test_what_there_is_not(bench, place):
    status, _, text = request(bench, "GET", f"/rig/good/book/{place}")
    assert (status, bool(json.loads(text)["says"])) == (422, True)
