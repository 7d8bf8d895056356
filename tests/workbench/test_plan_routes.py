"""Plans over their address."""

import http.client
import threading
import time

from tests.workbench.asking import act, ask, request

PLACE = "/rig/found/plan.json?plan=channels"


def answers(bench, count):
    """The same plan asked for so many times, shortly one after the other."""
    found = []
    threads = [
        threading.Thread(target=lambda: found.append(request(bench, "GET", PLACE)))
        for _ in range(count)
    ]
    for one in threads:
        one.start()
        time.sleep(0.3)
    return threads, found


def test_a_plan_names_the_revision_it_is_for(bench):
    told = ask(bench, "found", "plan", "?plan=power")
    assert told["plan"] == "power"
    assert told["revision"] == ask(bench, "found", "status")["revision"]
    status, _, text = request(bench, "GET", "/rig/found/plan.json?plan=holidays")
    assert (status, "there is no plan" in text) == (422, True)


def test_an_edit_is_answered_while_a_plan_is_worked_out_and_the_last_wish_counts(bench):
    act(bench, "found", "undo")  # the rig is open now
    threads, found = answers(bench, 2)
    status, told = act(bench, "found", "edit", seen=1, edits=[
        {"do": "set", "address": "rig.name", "value": "Second chair"}])  # fmt: skip
    assert status == 200, told
    for one in threads:
        one.join(120)
    assert sorted(status for status, *_ in found) == [200, 422]
    assert any("meanwhile" in text for _, _, text in found)


def test_who_goes_away_stops_the_plan(bench):
    act(bench, "found", "undo")
    connection = http.client.HTTPConnection("127.0.0.1", bench.port, timeout=60)
    connection.request("GET", PLACE)
    connection.close()
    assert ask(bench, "found", "plan", "?plan=power")["plan"] == "power"
