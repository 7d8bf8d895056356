"""The search for what is wrong, as a person holds it: by pointer, by keyboard, on two screens."""

import pytest

from tests.cli.running import ran
from tests.workbench.asking import act, ask
from thruline.outside.samples import FIRST_BOARD, sample_text
from tools.browsing import served


@pytest.fixture
def folder(folder):
    (folder / "small.rig.toml").write_text(sample_text(FIRST_BOARD), encoding="utf-8")
    return folder


@pytest.fixture
def find(page, bench):
    page.set_default_timeout(20_000)  # suspects of a whole board are worked out at the first
    page.goto(f"{bench.address}/rig/small/find")
    page.wait_for_selector("body[data-loaded]")
    return page


def begin(page, words):
    page.locator("#symptom").fill(words)
    page.locator("#begin button").click()
    page.wait_for_selector("#search:not([hidden])")


def test_a_symptom_leads_to_a_question_with_suspects(find):
    begin(find, "reverb does nothing")
    assert "does nothing" in find.locator("#steps").inner_text() or "nothing happens" in (
        find.locator("#steps").inner_text()
    )
    assert find.locator("#asks").inner_text()
    assert find.locator("#suspects li").count() >= 3
    assert "still expected" in find.locator("#left").inner_text()
    assert find.get_by_role("button", name="Not sure").is_visible()
    assert find.get_by_role("button", name="Cannot do that here").is_visible()


def test_how_a_symptom_was_understood_is_told_until_the_next_answer(find):
    begin(find, "reverb does nothing")
    note = find.locator("#understood")
    assert "“reverb does nothing” is understood as: 1. Press preset" in note.inner_text()
    find.keyboard.press("n")
    find.wait_for_selector("body[data-steps='2']")
    assert note.is_hidden()
    assert find.locator("#away").count() == 1  # of the frame, told when nobody is there


def test_an_unclear_symptom_is_told_with_an_example(find):
    find.locator("#symptom").fill("blue")
    find.locator("#begin button").click()
    find.wait_for_selector("#said.bad:has-text('for example')")
    assert find.locator("#begin").is_visible()


def test_answers_are_given_and_taken_back_by_keyboard(find):
    begin(find, "reverb does nothing")
    find.keyboard.press("n")
    find.wait_for_selector("body[data-steps='2']")
    assert "not sure" in find.locator("#steps li").last.inner_text()
    find.keyboard.press("b")
    find.wait_for_selector("body[data-steps='1']")
    find.keyboard.press("c")
    find.wait_for_selector("body[data-steps='2']")
    assert "cannot be done here" in find.locator("#steps li").last.inner_text()


def test_two_screens_hold_the_same_search(find, context, bench):
    begin(find, "reverb does nothing")
    other = context.new_page()
    other.set_viewport_size({"width": 390, "height": 800})
    other.goto(f"{bench.address}/rig/small/find")
    other.wait_for_selector("body[data-steps='1']")
    assert other.locator("#asks").inner_text() == find.locator("#asks").inner_text()
    assert other.evaluate("document.documentElement.scrollWidth") <= 390
    for box in other.locator("#asked .big").all():
        assert box.bounding_box()["height"] >= 48
    other.get_by_role("button", name="Not sure").click()
    find.wait_for_selector("body[data-steps='2']")
    assert other.locator("#asks").inner_text() == find.locator("#asks").inner_text()


def test_a_search_survives_the_server_and_can_be_put_away(folder):
    wish = {"place": "stage", "symptoms": ["reverb does nothing"], "from_proof": False}
    with served(folder) as first:
        assert act(first, "small", "find-begin", **wish)[0] == 200
        before = ask(first, "small", "find")
    with served(folder) as second:
        after = ask(second, "small", "find")
        assert after["search"] == before["search"]
        assert after["check"] == before["check"]
        assert after["search"]["place"] == "stage"
        act(second, "small", "find-end")
        assert ask(second, "small", "find")["begun"] is False


def test_who_answers_late_is_told(bench):
    wish = {"place": "bench", "symptoms": [], "from_proof": True}
    act(bench, "small", "find-begin", **wish)
    assert act(bench, "small", "find-answer", answer="not sure", steps=0)[0] == 200
    status, said = act(bench, "small", "find-answer", answer="not sure", steps=0)
    assert status == 422
    assert "somebody else answered" in said["says"]
    assert len(ask(bench, "small", "find")["steps"]) == 1


def test_the_card_is_on_the_page(find):
    find.locator("#card summary").click()
    find.wait_for_selector("#entry-1")
    assert find.locator("#card .entry").count() > 1
    assert find.locator("#card a[href='#entry-2']").count() >= 1


@pytest.fixture
def heard(folder, capsys):
    """A capture beside the rig, as its controller would send with a mistake in it."""
    order = ("--fault", "numbering reverb +1", "--at", "feet.midi-out")
    rig, take = str(folder / "small.rig.toml"), str(folder / "take.capture")
    assert ran(capsys, "pretend", rig, take, *order).code == 0
    return "take.capture"


def test_a_search_begins_with_a_capture_a_symptom_and_the_proof(heard, bench):
    assert ask(bench, "small", "find")["captures"] == [heard]
    wish = {"place": "bench", "symptoms": ["reverb one too high"], "from_proof": True}
    assert act(bench, "small", "find-begin", **wish, from_capture=heard)[0] == 200
    said = ask(bench, "small", "find")
    assert (said["from_audit"], said["from_proof"]) == (heard, True)
    assert said["suspects"][0]["id"] == "entry-one-up@reverb"
    assert len(said["steps"]) == 1
    status, refused = act(bench, "small", "find-begin", **wish, from_capture="../x.capture")
    assert status == 422
    assert "there is no capture" in refused["says"]
    assert ask(bench, "small", "find")["from_audit"] == heard


def test_the_bench_page_leads_to_a_search_that_begins_with_its_audit(heard, page, bench, folder):
    log = folder.parent / "workshop" / "captures" / "small" / "evening.capture"
    log.parent.mkdir(parents=True)
    log.write_bytes((folder / heard).read_bytes())
    page.goto(f"{bench.address}/rig/small/bench")
    page.locator("#capture").select_option("evening")
    page.get_by_role("link", name="Find what is wrong").click()
    page.wait_for_selector("body[data-loaded][data-page=find]")
    assert page.locator("#heard").input_value() == "evening"
    page.locator("#begin button").click()
    page.wait_for_selector("#search:not([hidden])")
    assert "the audit of evening" in page.locator("#begun-by").inner_text()
    assert "too high" in page.locator("#suspects li").first.inner_text()


def test_the_page_for_a_colleague_is_one_link_away(find, bench):
    begin(find, "reverb does nothing")
    with find.context.expect_page() as opened:
        find.locator("#read-record").click()
    assert "reverb does nothing" in opened.value.locator("body").inner_text()
    assert "What would be tried next" in opened.value.locator("body").inner_text()
    with find.expect_download() as taken:
        find.locator("#print-record").click()
    assert taken.value.suggested_filename == "small.search.pdf"
