"""Every mend button of the board as it was found does what it says, and is taken back by Undo."""

import pytest

from tests.workbench.asking import act, ask


def test_every_mend_is_made_and_undone(bench, folder):
    file = folder / "found.rig.toml"
    before = file.read_bytes()
    status = ask(bench, "found", "status")
    mends = [(one, mend["says"]) for one in status["findings"] for mend in one["mends"]]
    assert len(mends) > 15
    for finding, says in mends:
        code, told = act(bench, "found", "mend", finding=finding["id"], mend=says)
        assert code == 200, told
        assert file.read_bytes() != before
        assert act(bench, "found", "undo")[0] == 200
        assert file.read_bytes() == before


@pytest.mark.parametrize("name", ["presets", "board"])
def test_pressing_every_first_mend_leaves_no_button_without_effect(page, bench, folder, name):
    file = folder / "found.rig.toml"
    page.goto(f"{bench.address}/rig/found/{name}")
    page.wait_for_selector("body[data-loaded]")
    for _ in range(40):
        button = page.locator("#findings .card.fault .mend").first
        if not button.count():
            break
        before = file.read_bytes()
        turn = page.locator("#proof").inner_text()
        button.click()
        page.wait_for_function(
            "(old) => document.querySelector('#proof').innerText !== old", arg=turn
        )
        assert file.read_bytes() != before
    assert "✕" not in page.locator("#said").inner_text()
    assert page.locator("#proof.clean").count() == 1
