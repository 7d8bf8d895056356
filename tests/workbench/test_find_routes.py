import pytest

from tests.workbench.asking import act, request


def begun(bench):
    wish = {"place": "stage", "symptoms": ["reverb does nothing"], "from_proof": False}
    assert act(bench, "good", "find-begin", **wish)[0] == 200


@pytest.mark.parametrize("form", ["html", "md"])
def test_a_record_can_be_read(bench, form):
    begun(bench)
    status, _, text = request(bench, "GET", f"/rig/good/find/record.{form}")
    assert status == 200
    assert "reverb does nothing" in text
    assert "on a stage" in text


def test_without_a_search_or_such_a_form_there_is_none(bench):
    status, _, text = request(bench, "GET", "/rig/good/find/record.html")
    assert status == 422
    assert "no search is going on" in text
    begun(bench)
    status, _, text = request(bench, "GET", "/rig/good/find/record.doc")
    assert status == 422
    assert "html, md, pdf" in text
