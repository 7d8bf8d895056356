"""Every mend button, pressed where it stands, does what it says, and is taken back by Undo."""

import sys
import tomllib
from urllib.parse import quote

import pytest

from tests.opening import with_head
from tests.rules.looking import state
from tests.workbench.asking import ask
from tests.workbench.faulty_boards import MORE, faulty_boards, kinds_of_mend
from thruline.document.change import apply
from thruline.outside.samples import AS_FOUND, sample_text
from thruline.proof.finding import Mend
from thruline.proof.rule import Example
from tools.browsing import served

BOARDS = {**faulty_boards(), "as found": Example(sample_text(AS_FOUND))}
GROUPS = sorted({name.partition(".")[0] for name in faulty_boards() if "." in name})
PAGES = {
    "board": "board",
    "cable": "units",
    "preset": "presets",
    "sweep": "sweeps",
    "unit": "units",
}
SAID = "(says) => document.querySelector('#said').innerText.startsWith(says)"


@pytest.fixture(scope="module")
def boards(tmp_path_factory):
    """All the boards in one folder, on one server."""
    folder = tmp_path_factory.mktemp("boards")
    for name, example in BOARDS.items():
        (folder / f"{name}.rig.toml").write_text(with_head(example.rig), encoding="utf-8")
        for chart in example.charts:
            (folder / "charts").mkdir(exist_ok=True)
            file = folder / "charts" / f"{tomllib.loads(chart)['chart']['id']}.chart.toml"
            assert not file.exists() or file.read_text(encoding="utf-8") == chart
            file.write_text(chart, encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("THRULINE_WORKSHOP", str(tmp_path_factory.mktemp("workshop")))
        patch.delenv("THRULINE_STORE", raising=False)
        with served(folder) as bench:
            yield folder, bench


@pytest.fixture(scope="module")
def leaf(chromium):
    """One page for all boards."""
    context = chromium.new_context(viewport={"width": 1280, "height": 800})
    context.set_default_timeout(8000)
    yield context.new_page()
    context.close()


def offered(name):
    """Every finding of a board with each of its mends."""
    return [(one, mend) for one in state(BOARDS[name]).proof.findings for mend in one.mends]


def pressed(name):
    """Those of the rule whose example a board is; of other boards, all."""
    those = offered(name)
    own = [(one, mend) for one, mend in those if one.rule == name]
    return own if "." in name else those


def test_every_kind_of_mend_is_offered_on_some_board(monkeypatch):
    made, build = set(), Mend.__init__

    def noted(mend, *words, **named):
        caller = sys._getframe(1)
        made.add((caller.f_code.co_filename, caller.f_lineno))
        build(mend, *words, **named)

    monkeypatch.setattr(Mend, "__init__", noted)
    for name in BOARDS:
        assert offered(name) or "." in name
    kinds = list(kinds_of_mend())
    assert len(kinds) > 50
    missing = [
        f"{file}:{rows[0]}" for file, rows in kinds if not any((file, row) in made for row in rows)
    ]
    assert missing == []


@pytest.mark.parametrize("group", [*GROUPS, *MORE, "as found"])
def test_every_mend_is_pressed_and_undone(leaf, boards, group):
    names = [name for name in BOARDS if name == group or name.startswith(f"{group}.")]
    assert sum(press_all(leaf, *boards, name) for name in names)


def press_all(page, folder, bench, name):
    """Press every mend of a board, one after the other; how many there were."""
    file, those = folder / f"{name}.rig.toml", pressed(name)
    before, last = file.read_bytes(), None
    for finding, mend in sorted(those, key=lambda one: place_of(one[0])):
        if place_of(finding) != last:
            last = place_of(finding)
            page.goto(f"{bench.address}/rig/{name}/{last}")
            page.wait_for_selector("body[data-ready]")
        for more in page.locator("#findings > button").all():
            more.click()
        title = page.get_by_role("heading", name=finding.says, exact=True)
        card = page.locator("#findings .card").filter(has=title)
        count = card.count()
        card.first.get_by_role("button", name=mend.says, exact=True).click()
        page.wait_for_function(SAID, arg=f"{mend.says}.")
        assert file.read_text(encoding="utf-8") == apply(before.decode(), mend.edits)
        assert card.count() < count
        status = ask(bench, quote(name), "status")
        assert finding.id not in {one["id"] for one in status["findings"]}
        page.locator("#undo").click()
        page.wait_for_function(SAID, arg="Undone.")
        assert file.read_bytes() == before
        assert card.count() == count
    return len(those)


def place_of(finding):
    """The page on which the thing that a finding is about stands."""
    return PAGES.get(finding.where[0].steps[0].key, "line")


def test_pressing_every_first_mend_leaves_a_rig_without_faults(page, bench, folder):
    file = folder / "found.rig.toml"
    page.goto(f"{bench.address}/rig/found/board")
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
    assert page.locator("#proof.proved").count() == 1
