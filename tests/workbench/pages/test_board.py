"""Units moved and turned on the board, with pointer and keyboard."""

import re

import pytest

MADE = "() => !document.querySelector('#undo').disabled"


@pytest.fixture
def board(page, bench):
    page.goto(f"{bench.address}/rig/good/board")
    page.wait_for_selector("body[data-loaded]")
    return page


def place_of(folder, unit):
    text = (folder / "good.rig.toml").read_text()
    block = text.split(f'[[unit]]\nid = "{unit}"')[1].split("[[")[0]
    found = re.search(r"place = \{ x = (-?\d+), y = (-?\d+)(?:, turn = (\d+))? \}", block)
    return None if found is None else tuple(int(one or 0) for one in found.groups())


def test_a_unit_is_dragged_and_snaps(board, folder):
    x, y, _ = place_of(folder, "delay")
    box = board.locator("[data-id=delay] > rect").first.bounding_box()
    middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    board.mouse.move(*middle)
    board.mouse.down()
    board.mouse.move(middle[0] + 33, middle[1] + 21, steps=4)
    board.mouse.up()
    board.wait_for_function(MADE)
    moved = place_of(folder, "delay")
    assert moved[0] > x
    assert moved[1] > y
    assert moved[0] % 5 == moved[1] % 5 == 0


def test_a_unit_is_moved_turned_and_taken_off_with_the_keyboard(board, folder):
    x, y, _ = place_of(folder, "delay")
    board.locator("[data-id=delay]").focus()
    board.keyboard.press("ArrowRight")
    board.keyboard.press("Shift+ArrowDown")
    board.wait_for_function(MADE)
    assert place_of(folder, "delay") == (x + 5, y + 50, 0)
    board.wait_for_function("() => document.activeElement.dataset.id === 'delay'")
    board.keyboard.press("r")
    board.wait_for_selector("#said:has-text('turned to 90')")
    assert place_of(folder, "delay")[2] == 90
    board.wait_for_function("() => document.activeElement.dataset.id === 'delay'")
    board.keyboard.press("Delete")
    board.wait_for_selector("#off button:has-text('Bramley')")
    assert place_of(folder, "delay") is None
    board.locator("#off button:has-text('Bramley')").click()
    board.wait_for_selector("[data-id=delay]")


def test_what_stands_in_another_is_told(board):
    board.locator("[data-id=delay]").focus()
    for _ in range(3):
        board.keyboard.press("Shift+ArrowRight")
    board.wait_for_selector("#troubles li:has-text('stand in each other')")
    assert board.locator(".box.troubled").count() >= 2


def test_layers_are_put_on_and_off(board):
    assert board.locator(".cable.midi").count() > 0
    assert board.locator(".cable.power").count() == 0
    board.get_by_label("power leads").check()
    assert board.locator(".cable.power").count() > 0
    board.get_by_label("MIDI cables").uncheck()
    assert board.locator(".cable.midi").count() == 0


def test_a_size_that_makes_no_sense_is_refused(board, folder):
    before = (folder / "good.rig.toml").read_text()
    board.locator("#width").fill("wide")
    board.locator("#width").press("Enter")
    board.wait_for_selector("#said.bad:has-text('A size reads like')")
    assert (folder / "good.rig.toml").read_text() == before


def test_a_unit_that_goes_off_the_board_and_back_keeps_the_focus(board):
    board.locator("[data-id=delay]").focus()
    board.keyboard.press("Delete")
    board.wait_for_selector("#off button[data-id=delay]")
    assert board.evaluate("document.activeElement.textContent").startswith("Place Bramley Delay")
    board.keyboard.press("Enter")
    board.wait_for_selector("#board [data-id=delay]")
    assert board.evaluate("document.activeElement.matches('.box[data-id=delay]')")
