"""Requests to a workbench, without a browser."""

import http.client
import json
from concurrent.futures import ThreadPoolExecutor


def request(bench, method, place, body=None, **headers):
    """The status, the headers and the text of an answer."""
    connection = http.client.HTTPConnection("127.0.0.1", bench.port, timeout=60)
    sent = {name.replace("_", "-"): value for name, value in headers.items()}
    connection.request(method, place, body, sent)
    answer = connection.getresponse()
    text = answer.read().decode(errors="replace")
    connection.close()
    return answer.status, dict(answer.getheaders()), text


def act(bench, rig, deed, **asked):
    """A deed, as a page of the workbench would ask for it."""
    status, _, text = request(
        bench, "POST", f"/rig/{rig}/do/{deed}", json.dumps(asked), Origin=bench.address
    )
    return status, json.loads(text)


def ask(bench, rig, page, query=""):
    return json.loads(request(bench, "GET", f"/rig/{rig}/{page}.json{query}")[2])


def in_thread(what):
    """What a function gives or raises in a thread of its own: the browser's loop is in this one."""
    with ThreadPoolExecutor(1) as threads:
        return threads.submit(what).result(60)
