"""Texts of new charts: copies of others, and beginnings."""

import tomllib

import pytest

from thruline.app.chart_copy import beginning, copy_of
from thruline.base.errors import CannotUse
from thruline.outside.shelves import sample_shelf
from thruline.workshop.face import Sheet

HEAD = {"maker": "Quince", "model": 'The "Box"', "kind": "fuzz"}


@pytest.mark.parametrize("chart", sample_shelf().ids())
def test_a_copy_differs_in_its_id_only(chart):
    sheet = sample_shelf().find(chart)
    assert copy_of(sheet, chart).encode() == sheet.content
    before, after = sheet.content.decode().splitlines(), copy_of(sheet, "other").splitlines()
    changed = [row for old, row in zip(before, after, strict=True) if old != row]
    assert len(changed) == 1
    assert "other" in changed[0]


def test_a_beginning_holds_what_is_known():
    held = tomllib.loads(beginning("quince-box", HEAD))
    assert held == {"format": 1, "chart": {"id": "quince-box", **HEAD}}


@pytest.mark.parametrize("word", ["", "../quince", "Quince", "a--b", "a" * 41, "a\n"])
def test_what_cannot_be_an_id_is_refused(word):
    with pytest.raises(CannotUse, match="cannot be the id"):
        beginning(word, HEAD)
    with pytest.raises(CannotUse, match="cannot be the id"):
        copy_of(sample_shelf().find("bramley-delay"), word)


@pytest.mark.parametrize("key", ["maker", "model", "kind"])
def test_a_beginning_wants_all_of_the_head(key):
    with pytest.raises(CannotUse, match=f"give the {key}"):
        beginning("quince-box", {**HEAD, key: " "})
    with pytest.raises(CannotUse):
        beginning("quince-box", {**HEAD, key: "x" * 500})


@pytest.mark.parametrize("content", [b"\xff\xfe", b"[chart\n", b"format = 1\n"])
def test_what_cannot_be_used_is_not_copied(content):
    with pytest.raises(CannotUse):
        copy_of(Sheet("broken.chart.toml", content), "other")
