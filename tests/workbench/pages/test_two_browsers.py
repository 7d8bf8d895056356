"""Two browsers at one place, and a server that goes away while somebody types."""

import tomllib

import pytest

from tests.workbench.asking import act
from tools.browsing import served

ASKS = "#ask[open]:has-text('was changed meanwhile')"
SHOWS = """([row, column, text]) => {
  const cell = document.querySelectorAll("#sheet tbody tr")[row].cells[column];
  return cell.textContent.includes(text);
}"""


@pytest.fixture
def sheet(page, bench):
    page.goto(f"{bench.address}/rig/good/presets")
    page.wait_for_selector("body[data-loaded]")
    return page


def held(folder, name="good"):
    return tomllib.loads((folder / f"{name}.rig.toml").read_text())


def cell(page, row, column):
    return page.locator("#sheet tbody tr").nth(row).locator("td").nth(column)


def begin_to_type(page, row, column, text):
    cell(page, row, column).click()
    page.keyboard.press("F2")
    page.keyboard.type(text)


def edit_elsewhere(bench, address, value, rig="good"):
    edit = {"do": "set", "address": address, "value": value}
    status, told = act(bench, rig, "edit", edits=[edit], seen=1)
    assert status == 200, told


def until(page, is_so):
    for _ in range(80):
        if is_so():
            return
        page.wait_for_timeout(50)
    pytest.fail(f"it did not come to be so: {page.locator('#said').inner_text()}")


def test_a_cell_that_somebody_else_has_changed_is_asked_about(sheet, bench, folder):
    label = held(folder)["preset"][0]["number"]
    begin_to_type(sheet, 0, 0, "Mine")
    edit_elsewhere(bench, f"preset[{label}].name", "Theirs")
    sheet.wait_for_function("() => !document.querySelector('#undo').disabled")
    assert sheet.locator("td input").input_value() == "Mine"
    sheet.keyboard.press("Enter")
    sheet.wait_for_selector(ASKS)
    sheet.keyboard.press("Enter")
    assert sheet.locator(ASKS).count() == 1
    assert held(folder)["preset"][0]["name"] == "Theirs"
    sheet.get_by_role("button", name="Leave what is there").click()
    sheet.wait_for_function(SHOWS, arg=[0, 0, "Theirs"])
    begin_to_type(sheet, 0, 0, "Mine after all")
    sheet.keyboard.press("Enter")
    until(sheet, lambda: held(folder)["preset"][0]["name"] == "Mine after all")
    assert sheet.locator("#ask[open]").count() == 0


def test_mine_goes_in_its_place_when_i_say_so(sheet, bench, folder):
    label = held(folder)["preset"][0]["number"]
    begin_to_type(sheet, 0, 0, "Mine")
    edit_elsewhere(bench, f"preset[{label}].name", "Theirs")
    sheet.wait_for_function("() => !document.querySelector('#undo').disabled")
    sheet.keyboard.press("Enter")
    sheet.wait_for_selector(ASKS)
    sheet.get_by_role("button", name="Put mine in its place").click()
    until(sheet, lambda: held(folder)["preset"][0]["name"] == "Mine")


def test_own_edits_one_after_the_other_ask_nothing(sheet, folder):
    for text in ("One", "Two", "Three"):
        begin_to_type(sheet, 0, 0, text)
        sheet.keyboard.press("Enter")
    until(sheet, lambda: held(folder)["preset"][0]["name"] == "Three")
    assert sheet.locator("#ask[open]").count() == 0
    sheet.locator("#undo").click()
    sheet.wait_for_function(SHOWS, arg=[0, 0, "Two"])
    begin_to_type(sheet, 0, 0, "Four")
    sheet.keyboard.press("Enter")
    until(sheet, lambda: held(folder)["preset"][0]["name"] == "Four")
    assert sheet.locator("#ask[open]").count() == 0


def test_what_is_typed_goes_along_when_rows_come_and_go(sheet, bench, folder):
    numbers = [one["number"] for one in held(folder)["preset"]]
    begin_to_type(sheet, 2, 0, "Kept")
    act(bench, "good", "edit", seen=1, edits=[{"do": "remove", "address": f"preset[{numbers[0]}]"}])
    sheet.wait_for_function(
        "(n) => document.querySelectorAll('#sheet tbody tr').length === n", arg=len(numbers) - 1
    )
    assert sheet.evaluate("document.activeElement.value") == "Kept"
    sheet.keyboard.press("Enter")
    until(sheet, lambda: held(folder)["preset"][1]["name"] == "Kept")
    assert held(folder)["preset"][1]["number"] == numbers[2]


def test_a_text_whose_preset_is_taken_away_is_said(sheet, bench, folder):
    numbers = [one["number"] for one in held(folder)["preset"]]
    begin_to_type(sheet, 1, 0, "Lost words")
    act(bench, "good", "edit", seen=1, edits=[{"do": "remove", "address": f"preset[{numbers[1]}]"}])
    sheet.wait_for_selector("#said.bad:has-text('Lost words')")
    assert sheet.locator("#sheet tbody tr").count() == len(numbers) - 1
    assert sheet.locator("td input").count() == 0
    sheet.keyboard.press("ArrowDown")
    assert sheet.evaluate("document.activeElement.matches('td')")


def test_the_name_of_a_unit_that_somebody_else_has_changed_is_asked_about(page, bench, folder):
    page.goto(f"{bench.address}/rig/good/units")
    page.wait_for_selector("body[data-loaded]")
    name = page.get_by_label("Name of delay", exact=True)
    name.fill("Mine")
    edit_elsewhere(bench, "unit[delay].name", "Theirs")
    page.wait_for_function("() => !document.querySelector('#undo').disabled")
    page.wait_for_timeout(300)
    assert name.input_value() == "Mine"
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "Name of delay"
    name.press("Enter")
    page.wait_for_selector(ASKS)
    page.get_by_role("button", name="Leave what is there").click()
    page.wait_for_function(
        "() => document.querySelector('[aria-label=\"Name of delay\"]').value === 'Theirs'"
    )
    assert "Mine" not in (folder / "good.rig.toml").read_text()


def test_a_fact_that_somebody_else_has_changed_is_asked_about(page, bench, folder):
    page.goto(f"{bench.address}/rig/good/whole")
    page.wait_for_selector("body[data-loaded]")
    name = page.get_by_label("rig: name", exact=True)
    name.fill("Mine")
    edit_elsewhere(bench, "rig.name", "Theirs")
    page.wait_for_selector(".rig:has-text('Theirs')")
    page.wait_for_timeout(300)
    assert name.input_value() == "Mine"
    name.press("Enter")
    page.wait_for_selector(ASKS)
    page.get_by_role("button", name="Put mine in its place").click()
    until(page, lambda: held(folder)["rig"]["name"] == "Mine")
    assert page.locator(".reason:not(:empty)").count() == 0


def test_a_cell_typed_while_the_server_is_away_is_kept_until_it_is_back(sheet, bench, folder):
    begin_to_type(sheet, 0, 0, "Typed in vain")
    bench.stop()
    sheet.wait_for_selector("#away:visible")
    sheet.keyboard.press("Enter")
    sheet.wait_for_selector("td.wrong:has-text('Typed in vain')")
    assert "out of reach" in sheet.locator("#said").inner_text()
    assert "Typed in vain" not in (folder / "good.rig.toml").read_text()
    with served(folder, bench.port):
        sheet.wait_for_selector("#away", state="hidden")
        sheet.wait_for_selector("td.wrong", state="detached")
        until(sheet, lambda: held(folder)["preset"][0]["name"] == "Typed in vain")
        assert "out of reach" not in sheet.locator("#said").inner_text()


@pytest.mark.parametrize(
    ("place", "label"), [("units", "Name of delay"), ("whole", "rig: name")], ids=["unit", "fact"]
)
def test_a_field_filled_in_while_the_server_is_away_is_kept(page, bench, folder, place, label):
    page.goto(f"{bench.address}/rig/good/{place}")
    page.wait_for_selector("body[data-loaded]")
    bench.stop()
    page.wait_for_selector("#away:visible")
    field = page.get_by_label(label, exact=True)
    field.fill("Typed in vain")
    field.press("Enter")
    page.wait_for_selector("#said:has-text('out of reach')")
    assert field.input_value() == "Typed in vain"
    assert field.get_attribute("aria-invalid") == "true"
    with served(folder, bench.port):
        page.wait_for_selector("#away", state="hidden")
        until(page, lambda: "Typed in vain" in (folder / "good.rig.toml").read_text())
        page.wait_for_function(
            "(label) => !document.querySelector(`[aria-label='${label}']`).ariaInvalid", arg=label
        )


def test_what_is_chosen_while_the_server_is_away_is_kept(page, bench, folder):
    page.goto(f"{bench.address}/rig/good/units")
    page.wait_for_selector("body[data-loaded]")
    bench.stop()
    page.wait_for_selector("#away:visible")
    select = page.locator("#unit-delay select").first
    value = "9" if select.input_value() != "9" else "10"
    select.select_option(value)
    page.wait_for_selector("#unit-delay select[aria-invalid]")
    with served(folder, bench.port):
        page.wait_for_selector("#away", state="hidden")
        until(page, lambda: f"channel = {value}" in (folder / "good.rig.toml").read_text())
        page.wait_for_selector("#unit-delay select[aria-invalid]", state="detached")


def test_a_name_that_is_too_long_is_told_in_words_of_a_page(page, bench, folder):
    page.goto(f"{bench.address}/rig/good/units")
    page.wait_for_selector("body[data-loaded]")
    name = page.get_by_label("Name of delay", exact=True)
    name.fill("x" * 300)
    name.press("Enter")
    page.wait_for_selector("#said.bad:has-text('the most is 80')")
    said = page.locator("#said").inner_text()
    assert "rig.toml" not in said
    assert "^^^" not in said
    assert page.evaluate("document.documentElement.scrollWidth") <= 1280
    assert name.input_value() == "x" * 300
