import pytest

from tools import build_docs
from tools.build_docs import loaded_by_page, loaded_by_style

FAR = "https://elsewhere.example/x"


@pytest.mark.parametrize(
    "page",
    [
        f'<script src="{FAR}"></script>',
        f'<link rel="stylesheet" href="{FAR}">',
        f"<img src={FAR} alt=''>",
        "<script src='//elsewhere.example/x'></script>",
        f'<p style="background: url({FAR})">',
        f"<style>@import '{FAR}';</style>",
        f"<style>@font-face {{ src: url( '{FAR}' ) }}</style>",
    ],
)
def test_what_is_fetched_is_found(page) -> None:
    (address,) = loaded_by_page(f"<html><body>{page}</body></html>")
    assert address.endswith("//elsewhere.example/x")


@pytest.mark.parametrize(
    "page",
    [
        f'<a href="{FAR}">a link is only followed when asked</a>',
        '<script src="js/theme.js"></script>',
        f"<p>{FAR}</p>",
    ],
)
def test_what_is_not_fetched_is_let_be(page) -> None:
    assert loaded_by_page(page) == []


def test_styles_may_use_their_own_fonts() -> None:
    assert loaded_by_style("@font-face { src: url(fonts/x.woff2) }") == []


def test_a_page_that_fetches_fails_the_build(tmp_path, monkeypatch, capsys) -> None:
    (tmp_path / "index.html").write_text(f'<img src="{FAR}">', encoding="utf-8")
    monkeypatch.setattr(build_docs.subprocess, "call", lambda command, cwd: 0)
    assert build_docs.build(tmp_path) == 1
    assert capsys.readouterr().out == f"index.html loads {FAR}\n"
