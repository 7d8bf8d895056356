"""The sheet of presets, typed and pasted into."""

import tomllib

import pytest

from thruline.outside.samples import ORCHARD_STREET, sample_text


@pytest.fixture
def sheet(page, bench, folder):
    page.goto(f"{bench.address}/rig/good/presets")
    page.wait_for_selector("body[data-loaded]")
    return page


def cell(page, row, column):
    return page.locator("#sheet tbody tr").nth(row).locator("td").nth(column)


def column_of(page, unit):
    heads = page.locator("#sheet thead th").all_inner_texts()
    return heads.index(unit)


PASTE = """(text) => {
  const clipboardData = new DataTransfer();
  clipboardData.setData("text", text);
  const told = new ClipboardEvent("paste", { clipboardData, bubbles: true });
  document.activeElement.dispatchEvent(told);
}"""
COPY = """() => {
  const clipboardData = new DataTransfer();
  const told = new ClipboardEvent("copy", { clipboardData, bubbles: true });
  document.activeElement.dispatchEvent(told);
  return clipboardData.getData("text/plain");
}"""
HOLDS = """([row, column, text]) => {
  const cell = document.querySelectorAll("#sheet tbody tr")[row].cells[column];
  return cell.textContent.replace("◆", "").trim() === text;
}"""
ROWS = "(count) => document.querySelectorAll('#sheet tbody tr').length === count"


def test_typing_changes_the_document_and_the_proof(sheet, folder):
    column = column_of(sheet, "delay")
    cell(sheet, 1, column).click()
    sheet.keyboard.type("11B, mix 5%")
    sheet.keyboard.press("Enter")
    sheet.wait_for_function("() => !document.querySelector('#undo').disabled")
    text = (folder / "good.rig.toml").read_text()
    assert 'delay = { program = "11B", mix = "5%" }' in text
    assert "ms" in sheet.locator("#proof").inner_text()
    cell(sheet, 1, column).hover()
    sheet.wait_for_selector("td[title*=' = 6 on the wire']")


def test_what_makes_no_sense_stays_visible_and_out_of_the_document(sheet, folder):
    before = (folder / "good.rig.toml").read_text()
    column = column_of(sheet, "delay")
    cell(sheet, 1, column).click()
    sheet.keyboard.type("mix loud")
    sheet.keyboard.press("Enter")
    sheet.wait_for_selector("td.wrong")
    assert "mix loud" in sheet.locator("td.wrong").inner_text()
    assert "reads like" in sheet.locator("#said").inner_text()
    assert (folder / "good.rig.toml").read_text() == before
    sheet.keyboard.press("ArrowUp")
    assert "Not in the document" in sheet.locator("#cell").inner_text()
    sheet.keyboard.press("Escape")
    assert sheet.locator("td.wrong").count() == 0


def test_escape_leaves_a_cell_as_it_was(sheet):
    column = column_of(sheet, "delay")
    before = cell(sheet, 0, column).inner_text()
    cell(sheet, 0, column).dblclick()
    sheet.keyboard.type("nonsense")
    sheet.keyboard.press("Escape")
    assert cell(sheet, 0, column).inner_text() == before


def test_fill_down_and_delete_a_block_and_undo(sheet, folder):
    column = column_of(sheet, "reverb")
    first = cell(sheet, 0, column).inner_text().split(" ◆")[0]
    cell(sheet, 0, column).click()
    sheet.keyboard.press("Shift+ArrowDown")
    sheet.keyboard.press("Shift+ArrowDown")
    sheet.keyboard.press("Control+d")
    sheet.wait_for_function(HOLDS, arg=[2, column, first])
    sheet.keyboard.press("Delete")
    sheet.wait_for_function(HOLDS, arg=[2, column, ""])
    for _ in range(2):
        sheet.locator("#said").evaluate("(said) => { said.textContent = ''; }")
        sheet.locator("#undo").click()
        sheet.wait_for_selector("#said:has-text('Undone')")
    assert (folder / "good.rig.toml").read_text() == sample_text(ORCHARD_STREET)


def test_presets_are_added_copied_removed_and_found(sheet):
    count = sheet.locator("#sheet tbody tr").count()
    sheet.locator("#add").click()
    sheet.wait_for_function(ROWS, arg=count + 1)
    cell(sheet, 1, 0).click()
    sheet.locator("#copy").click()
    sheet.wait_for_function(ROWS, arg=count + 2)
    sheet.locator("#seek").fill("(copy)")
    sheet.locator("#seek").press("Enter")
    assert sheet.locator("#seen").inner_text() == "1 found"
    assert "(copy)" in sheet.evaluate("document.activeElement.innerText")
    sheet.locator("#drop").click()
    sheet.wait_for_function(ROWS, arg=count + 1)


def test_a_sheet_of_128_by_16_is_pasted(page, bench, folder):
    units = "".join(
        f'[[unit]]\nid = "d{n}"\nchart = "bramley-delay"\nchannel = {n + 1}\n' for n in range(15)
    )
    presets = "".join(f'[[preset]]\nnumber = {n}\nname = "P{n}"\n' for n in range(1, 129))
    head = 'format = 1\n[rig]\nname = "Large"\ncontroller = "feet"\n'
    feet = '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n'
    (folder / "large.rig.toml").write_text(head + feet + units + presets)
    page.goto(f"{bench.address}/rig/large/presets")
    page.wait_for_selector("body[data-loaded]")
    cell(page, 0, 0).click()
    rows = [[f"Name {n}", *(f"1A, mix {(n + k) % 128}" for k in range(15))] for n in range(128)]
    rows[5][3] = "mix loud"
    page.evaluate(PASTE, "\r\n".join("\t".join(row) for row in rows) + "\r\n")
    page.wait_for_selector("#said:has-text('reads like')", timeout=60_000)
    page.wait_for_function(HOLDS, arg=[127, 15, "1A, mix 13"])
    assert page.locator("td.wrong").count() == 1
    text = (folder / "large.rig.toml").read_text()
    assert text.count('program = "1A"') == 128 * 15 - 1
    assert "loud" not in text
    page.locator("#undo").click()
    page.wait_for_selector("#said:has-text('Undone')", timeout=60_000)
    assert "1A" not in (folder / "large.rig.toml").read_text()


def test_of_a_block_that_does_not_fit_it_stays_said_what_was_left_out(sheet, folder):
    rows = sheet.locator("#sheet tbody tr").count()
    cell(sheet, rows - 1, 0).click()
    sheet.evaluate(PASTE, "Last one\nToo many\nMore")
    sheet.wait_for_function("() => !document.querySelector('#undo').disabled")
    sheet.wait_for_selector("#said.bad:has-text('2 cells of the block lie outside')")
    sheet.wait_for_timeout(300)
    assert "2 cells of the block lie outside" in sheet.locator("#said.bad").inner_text()


def test_a_block_is_copied_as_a_spreadsheet_takes_it(sheet):
    cell(sheet, 0, 0).click()
    sheet.keyboard.press("Shift+ArrowDown")
    sheet.keyboard.press("Shift+ArrowRight")
    copied = sheet.evaluate(COPY)
    assert [len(row.split("\t")) for row in copied.split("\n")] == [2, 2]


def test_another_tab_shows_what_was_typed(sheet, context, bench):
    other = context.new_page()
    other.goto(f"{bench.address}/rig/good/presets")
    other.wait_for_selector("body[data-loaded]")
    cell(sheet, 0, 0).click()
    sheet.keyboard.type("Fresh name")
    sheet.keyboard.press("Enter")
    other.wait_for_selector("td:has-text('Fresh name')")


def test_presets_change_places_and_are_sorted(sheet, folder):
    def numbers():
        held = tomllib.loads((folder / "good.rig.toml").read_text())
        return [one["number"] for one in held["preset"]]

    before = numbers()
    text = (folder / "good.rig.toml").read_text()
    cell(sheet, 1, 2).click()
    sheet.locator("#earlier").press("Enter")
    sheet.wait_for_selector("#sheet tbody tr:first-child td[tabindex='0']")
    assert numbers()[:2] == [before[1], before[0]]
    assert cell(sheet, 0, 0).inner_text().startswith(f"{before[1]} ")
    sheet.locator("#later").press("Enter")
    sheet.wait_for_selector("#sheet tbody tr:nth-child(2) td[tabindex='0']")
    sheet.locator("#later").press("Enter")
    sheet.wait_for_selector("#sheet tbody tr:nth-child(3) td[tabindex='0']")
    assert numbers() != sorted(before)
    sheet.locator("#sort").press("Enter")
    sheet.wait_for_selector("#said:has-text('Sorted')")
    assert (folder / "good.rig.toml").read_text() == text
    sheet.locator("#sort").press("Enter")
    sheet.wait_for_selector("#said.bad:has-text('already')")


def test_a_preset_gets_another_number_wherever_it_is_named(sheet, folder):
    def held():
        return tomllib.loads((folder / "good.rig.toml").read_text())

    old = next(one["presets"][0] for one in held()["song"])
    row = next(at for at, one in enumerate(held()["preset"]) if one["number"] == old)
    cell(sheet, row, 0).click()
    sheet.locator("#more summary").click()
    field = sheet.get_by_label(f"preset {old}: number", exact=True)
    taken = next(one["number"] for one in held()["preset"] if one["number"] != old)
    field.fill(str(taken))
    field.press("Enter")
    sheet.wait_for_selector("#facts .reason:has-text('is there already')")
    assert field.input_value() == str(taken)
    field.fill("999")
    field.press("Enter")
    sheet.get_by_label("preset 999: number", exact=True).wait_for()
    assert held()["preset"][row]["number"] == 999
    assert held()["song"][0]["presets"][0] == 999
    assert cell(sheet, row, 0).inner_text().startswith("999 ")
    remark = sheet.get_by_label("preset 999: about", exact=True)
    remark.fill("Starts with the lights out")
    remark.press("Enter")
    sheet.wait_for_function("() => document.querySelector('#redo').disabled")
    for _ in range(80):
        if held()["preset"][row].get("about") == "Starts with the lights out":
            return
        sheet.wait_for_timeout(50)
    pytest.fail("the remark did not come into the document")
