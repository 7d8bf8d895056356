"""The bench in a real browser, on a wire in memory that brings back what is sent."""

import json
import re
from urllib.parse import quote

import pytest

from tests.app.test_send import SWELL
from tests.opening import with_head
from tests.routed import BOTH, SAME_CHANNEL, TO_ECHO
from tests.workbench.asking import in_thread, request
from thruline.app import gathering
from thruline.proof.example_boards import DELAY, TO_DELAY, board
from thruline.wiring import workshop_folder

LOOP = "in memory: loop"


@pytest.fixture
def wire(page, bench):
    """The page with the wire in memory opened both ways, as the controller's first output."""
    page.goto(f"{bench.address}/rig/good/bench")
    page.wait_for_selector("body[data-bench=ready]")
    page.locator("#inputs .port", has_text=LOOP).locator("input").check()
    page.locator("#inputs .port", has_text=LOOP).locator("select").select_option("feet.midi-out-1")
    page.locator("#outputs .port", has_text=LOOP).locator("input").check()
    page.get_by_role("button", name="Open these ports").click()
    page.wait_for_selector("#opened li:has-text('sends to')")
    return page


@pytest.fixture
def quiet(wire):
    wire.locator("#down").check()
    wire.wait_for_selector("#send:not([disabled])")
    return wire


def test_a_page_that_hears_of_the_bench_before_its_rig_is_there_waits(page, bench):
    page.route("**/good/bench.json*", lambda route: (page.wait_for_timeout(600), route.continue_()))
    page.goto(f"{bench.address}/rig/good/bench")
    page.wait_for_timeout(300)
    assert page.locator("#said").inner_text() == ""
    page.wait_for_selector("body[data-bench=ready]")
    assert page.locator("#said").inner_text() == ""


def test_nothing_is_sent_before_the_sound_is_turned_down(wire):
    assert "turn amplifiers and headphones down" in wire.locator("#caution").inner_text()
    assert wire.locator("#send").is_disabled()
    assert wire.locator("#place").is_disabled()


def test_a_preset_is_sent_told_what_shows_and_heard_in_words(quiet):
    quiet.locator("#preset").select_option("7")
    quiet.locator("#send").click()
    quiet.wait_for_selector("#sending h3:has-text('done')")
    assert "Bramley Delay now shows program 11B" in quiet.locator(".shows").inner_text()
    quiet.wait_for_selector("#wire tr:has-text('feet -> delay: program 11B')")
    row = quiet.locator("#wire tr", has_text="feet -> delay: program 11B").first
    assert "C2 33" in row.inner_text()
    assert "feet.midi-out-1" in row.inner_text()


def test_unit_by_unit_waits_for_the_person(quiet):
    quiet.locator("#preset").select_option("7")
    quiet.locator("#step").click()
    quiet.wait_for_selector("#yes")
    first = quiet.locator(".shows").inner_text()
    quiet.locator("#yes").click()
    quiet.wait_for_function("was => document.querySelector('.shows').innerText !== was", arg=first)
    quiet.wait_for_selector("#no")
    quiet.locator("#no").click()
    quiet.wait_for_selector("#sending h3:has-text('stopped')")
    assert "this is not so" in quiet.locator("#sending").inner_text()


def test_a_sweep_follows_the_keys_on_its_slider(quiet):
    quiet.locator("#place").focus()
    quiet.keyboard.press("End")
    quiet.wait_for_selector("#moved:has-text('at 100 %')")
    quiet.keyboard.press("Home")
    quiet.wait_for_selector("#moved:has-text('at 0 %')")
    quiet.wait_for_selector("#wire tr:has-text('control')")


def test_panic_is_heard(quiet):
    quiet.keyboard.press("Alt+p")
    quiet.wait_for_selector("#said:has-text('all sound and all notes off, sent to')")
    quiet.wait_for_selector("#wire tr:has-text('78 00')")


def test_another_tab_sees_the_same(quiet, context, bench):
    other = context.new_page()
    other.goto(f"{bench.address}/rig/good/bench")
    other.wait_for_selector("#opened li:has-text('sends to')")
    assert other.locator("#down").is_checked()
    other.locator("#preset").select_option("3")
    other.locator("#send").click()
    quiet.wait_for_selector("#sending h3:has-text('3 ')")
    quiet.wait_for_selector("#wire tr:has-text('program')")


def test_filters_leave_out_what_is_not_wanted(quiet):
    quiet.locator("#send").click()
    quiet.wait_for_selector("#wire tr:has-text('program')")
    quiet.locator("#only").select_option("delay")
    quiet.wait_for_function(
        "() => { const rows = [...document.querySelectorAll('#wire tbody tr')];"
        " return rows.length && rows.every((one) => one.innerText.includes('delay')); }"
    )


def test_an_audit_ticks_off_what_is_pressed_and_draws_it(quiet):
    quiet.locator("#audit").click()
    quiet.wait_for_selector("#pressing :has-text('Now press preset 1 ')")
    quiet.locator("#preset").select_option("1")
    quiet.locator("#send").click()
    quiet.wait_for_selector("#ticks tr:has-text('as it was meant')")
    quiet.wait_for_selector("#pressing :has-text('Now press preset 2 ')")
    quiet.locator("#preset").select_option("3")
    quiet.locator("#send").click()  # another than was asked for
    quiet.wait_for_selector("#ticks tr.differs")
    quiet.locator("#skip").click()
    quiet.wait_for_selector("#pressing :has-text('Now press preset 4 ')")
    quiet.locator("#ticks tr", has_text="House open").get_by_role("button", name="Timing").click()
    quiet.wait_for_selector("#chart [data-part=captured] polyline")
    computed = quiet.locator("#chart [data-part=computed] polyline").count()
    assert quiet.locator("#chart [data-part=captured] polyline").count() == computed
    assert "messages came" in quiet.locator("#timing p").inner_text()
    quiet.locator("#ticks tr.differs").get_by_role("button", name="Timing").first.click()
    quiet.wait_for_selector("#times tr:has-text('did not come')")
    quiet.get_by_role("button", name="End the audit").click()
    quiet.wait_for_selector("#audit:visible")


def test_the_log_is_kept_replayed_and_audited(quiet, bench):
    quiet.locator("#preset").select_option("7")
    quiet.locator("#send").click()
    quiet.wait_for_selector("#wire tr:has-text('program 11B')")
    quiet.get_by_role("button", name="Let go of all").click()
    quiet.wait_for_selector("#opened li:has-text('No port is open')")
    name = quiet.locator("#source option").nth(1).get_attribute("value")
    quiet.locator("#source").select_option(name)
    quiet.wait_for_selector("#wire tr:has-text('program 11B')")
    address = quiet.locator(f"#take[href$='{quote(name)}']").get_attribute("href")
    status, _, text = in_thread(lambda: request(bench, "GET", address))
    assert status == 200
    assert text.startswith("thruline capture 1\n")
    quiet.locator("#capture").select_option(name)
    quiet.wait_for_selector("#ticks")
    assert "1 of 1 presses" in quiet.locator("#verdict").inner_text()


def test_asking_who_is_there_says_that_silence_proves_nothing(quiet):
    quiet.locator("#identify").click()
    quiet.wait_for_selector("#identity:has-text('That proves nothing')")


def state(bench):
    return json.loads(request(bench, "GET", "/rig/good/bench/state.json")[2])


def test_a_port_is_not_fought_over(quiet, context, bench):
    other = context.new_page()
    other.goto(f"{bench.address}/rig/found/bench")
    other.wait_for_selector("body[data-bench=ready]")
    box = other.locator("#outputs .port", has_text=LOOP)
    assert "in use at the bench of good" in box.inner_text()
    assert box.locator("input").is_disabled()


def test_a_backup_is_put_back_only_when_its_unit_is_named(quiet, bench, monkeypatch):
    monkeypatch.setattr(gathering, "QUIET_US", 1_000_000)
    dumps = [bytes.fromhex("f0 7d 01 02 03 04 05 06 07 7e f7"), bytes.fromhex("f0 7d 01 02 f7")]
    quiet.locator("#save-unit").select_option("delay")
    quiet.locator("#save-name").fill("before the tour")
    quiet.get_by_role("button", name="Wait for its dump").click()
    quiet.wait_for_selector("#saving:has-text('Start the dump')")
    room = bench.bench.wings.loaded.benches._benches["good"]
    for dump in dumps:
        room._held[0].send(dump)
    quiet.wait_for_selector("#saving:has-text('Kept as')")
    quiet.wait_for_selector("#restore button:not([disabled])")
    for typed, says in (("reverb", "not sent: type the id"), ("delay", "")):
        quiet.get_by_role("button", name="Put it back …").click()
        quiet.locator("#ask input").fill(typed)
        quiet.get_by_role("button", name="Send it", exact=True).last.click()
        if says:
            quiet.wait_for_selector(f"#said:has-text('{says}')")
    quiet.wait_for_selector("#sending h3:has-text('done')")
    quiet.wait_for_selector("#wire tr:has-text('F0 7D 01 02 F7')")


def test_a_backup_that_tells_of_no_rig_is_told_before_it_is_sent(quiet, bench):
    folder = workshop_folder() / "backups" / "delay"
    folder.mkdir(parents=True)
    (folder / "old.syx").write_bytes(b"\xf0\x7d\x01\xf7")
    (folder / "old.txt").write_text("unit: delay\n")
    quiet.reload()
    quiet.wait_for_selector("body[data-bench=ready]")
    quiet.locator("#backup").select_option("delay/old")
    quiet.get_by_role("button", name="Put it back …").click()
    quiet.wait_for_selector("#ask .caution:has-text('does not tell of which rig')")
    quiet.get_by_role("button", name="Leave it", exact=True).last.click()
    assert quiet.locator("#ask[open]").count() == 0


def test_nothing_ticked_is_said_and_a_dump_is_given_up(page, bench):
    page.goto(f"{bench.address}/rig/good/bench")
    page.wait_for_selector("body[data-bench=ready]")
    page.get_by_role("button", name="Open these ports").click()
    page.wait_for_selector("#said.bad:has-text('Tick a port first')")
    assert page.locator("#choosing[open]").count() == 1
    page.locator("#inputs .port", has_text=LOOP).locator("input").check()
    page.get_by_role("button", name="Open these ports").click()
    page.wait_for_selector("#opened li:has-text('listens to')")
    page.get_by_role("button", name="Wait for its dump").click()
    page.get_by_role("button", name="Stop waiting").click()
    page.wait_for_selector("#saving:has-text('Stopped')")
    assert page.get_by_role("button", name="Stop waiting").count() == 0


def test_it_fits_a_telephone_and_has_names_for_all(quiet):
    quiet.set_viewport_size({"width": 390, "height": 800})
    width = quiet.evaluate("document.documentElement.scrollWidth")
    assert width <= 390
    assert re.match(r"Panic", quiet.locator("#panic").inner_text())


def test_a_port_stands_for_one_output_and_catches_up_when_it_comes_back(page, bench, folder):
    pieces = (DELAY, SAME_CHANNEL, TO_DELAY, TO_ECHO, BOTH, SWELL)
    text = with_head(board(*pieces, controller="pearmain-ten").rig)
    (folder / "two.rig.toml").write_text(text, encoding="utf-8")
    page.goto(f"{bench.address}/rig/two/bench")
    page.wait_for_selector("body[data-bench=ready]")
    row = page.locator("#outputs .port", has_text=LOOP)
    row.locator("input").check()
    assert row.locator("option").all_inner_texts() == ["(all outputs)", "midi-out-1", "midi-out-2"]
    row.locator("select").select_option("midi-out-2")
    page.get_by_role("button", name="Open these ports").click()
    page.wait_for_selector(f"#opened li:has-text('sends to {LOOP}, for midi-out-2')")
    page.locator("#down").check()
    wires = bench.bench.wings.loaded.benches.ports._systems._made["in memory: "]
    wires.unplug("loop")
    page.locator("#send:not([disabled])").click()
    page.wait_for_selector("#sending:has-text('went nothing for')")
    wires.plug_in("loop")
    page.locator("#again").click()
    page.wait_for_selector("#sending h3:has-text('done')")
    assert page.locator("#again").count() == 0
    assert page.locator(".shows li").count() == 1, "only what is behind that output"
