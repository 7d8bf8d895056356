"""Units and cables, set on their page."""

import tomllib

import pytest


@pytest.fixture
def units(page, bench):
    page.goto(f"{bench.address}/rig/found/units")
    page.wait_for_selector("body[data-loaded]")
    return page


def test_a_setting_is_changed_where_it_is_shown(units, folder):
    select = units.locator("#unit-reverb select").nth(1)
    wanted = select.evaluate("one => [...one.options].map((option) => option.value)")
    value = next(one for one in wanted if one not in ("", select.input_value()))
    select.select_option(value)
    units.wait_for_function("() => !document.querySelector('#undo').disabled")
    assert f'"{value}"' in (folder / "found.rig.toml").read_text()


def test_findings_stand_beside_what_they_concern(units):
    mark = units.locator("#unit-reverb tr .found").first
    assert "finding" in mark.inner_text()
    mark.click()
    assert "About unit[reverb].settings.midi-out" in units.locator("#findings").inner_text()
    units.locator("#findings .mend").first.click()
    units.wait_for_selector("#said:has-text('Gone')")
    assert "Nothing about this any more" in units.locator("#findings").inner_text()


def test_a_unit_is_added_plugged_in_and_removed(units, folder):
    units.locator("#chart").fill("jonagold-loper")
    units.locator("#chart").press("Enter")
    units.wait_for_selector("#said.bad:has-text('did you mean')")
    units.locator("#chart").fill("jonagold-looper")
    units.locator("#chart").press("Enter")
    units.wait_for_selector("#unit-looper-2")
    count = units.locator("#cables tbody tr").count()
    units.locator("#start").select_option("feet.midi-out-2")
    units.locator("#stop").select_option("looper-2.midi-in")
    units.locator("#plug button").click()
    units.wait_for_function(
        "(n) => document.querySelectorAll('#cables tbody tr').length === n", arg=count + 1
    )
    assert 'to = "looper-2.midi-in"' in (folder / "found.rig.toml").read_text()
    units.get_by_role("button", name="Remove looper-2", exact=True).click()
    units.get_by_role("button", name="Remove all of it").click()
    units.wait_for_selector("#unit-looper-2", state="detached")


def test_what_is_not_written_is_told_and_can_be_written(units, folder):
    def first():
        return tomllib.loads((folder / "found.rig.toml").read_text())["cable"][0]

    select = units.locator("#cables tbody tr select").first
    name = select.get_attribute("aria-label")
    assert select.input_value() == ""
    assert select.locator("option").first.inner_text() == "not written (straight)"
    adapted = units.locator("#cables tr", has_text="echo.midi-out").locator("option")
    assert adapted.first.inner_text() == "not written (type A)"
    select.select_option("straight")
    units.wait_for_function("() => !document.querySelector('#undo').disabled")
    assert first()["wiring"] == "straight"
    units.get_by_label(name).select_option("")
    units.wait_for_function(
        "(name) => document.querySelector(`[aria-label='${name}']`).value === ''", arg=name
    )
    units.wait_for_selector("#said:not(.bad)", state="attached")
    for _ in range(60):
        if "wiring" not in first():
            return
        units.wait_for_timeout(50)
    pytest.fail("it is still written")


def test_the_table_of_cables_fits_beside_the_findings(units):
    wide = units.evaluate(
        "() => { const table = document.querySelector('#cables');"
        " return [table.offsetWidth, table.parentNode.clientWidth]; }"
    )
    assert wide[0] <= wide[1]


def test_charts_are_offered_with_what_they_are_of(units):
    option = units.locator("#charts option[value='bramley-delay']")
    assert option.get_attribute("label") == "Bramley Delay, delay (bramley-delay)"
    units.locator("#chart").fill("Bramley Delay")
    units.locator("#chart").press("Enter")
    units.wait_for_selector("#said.bad:has-text('did you mean \"bramley-delay\"')")


def test_a_cable_is_wired_contact_by_contact(units, folder):
    first = units.locator("#cables tbody tr").first
    name = first.locator("select").get_attribute("aria-label")
    units.get_by_label(name).select_option("contact by contact")
    units.get_by_label(name).fill("4 with 4")
    units.get_by_label(name).press("Enter")
    units.wait_for_selector("#said.bad:has-text('it reads like')")
    before = (folder / "found.rig.toml").read_text()
    units.get_by_label(name).fill("4 to 4, 5 to 5")
    units.get_by_label(name).press("Enter")
    units.wait_for_function("() => !document.querySelector('#undo').disabled")
    cable = tomllib.loads((folder / "found.rig.toml").read_text())["cable"][0]
    assert cable["wiring"] == {"4": "4", "5": "5"}
    assert "4 with 4" not in before
    units.wait_for_function(
        "(name) => document.querySelector(`[aria-label=\"${name}\"]`).value === '4 to 4, 5 to 5'",
        arg=name,
    )
    units.get_by_label(name).fill("")
    units.get_by_label(name).press("Enter")
    units.wait_for_selector(f"select[aria-label='{name}']")


def test_what_hangs_on_a_unit_is_shown_goes_with_it_and_comes_back(units, folder):
    file = folder / "found.rig.toml"
    before = file.read_bytes()
    remove = units.get_by_role("button", name="Remove delay", exact=True)
    remove.press("Enter")
    dialog = units.locator("#ask")
    assert "the cable from" in dialog.inner_text()
    assert "presets want of it" in dialog.inner_text()
    dialog.get_by_role("button", name="Leave it").click()
    assert file.read_bytes() == before
    remove.click()
    dialog.get_by_role("button", name="Remove all of it").press("Enter")
    units.wait_for_selector("#unit-delay", state="detached")
    assert "delay" not in str(tomllib.loads(file.read_text())["cable"])
    units.locator("#undo").click()
    units.wait_for_selector("#unit-delay")
    assert file.read_bytes() == before


def test_a_length_that_is_none_stays_out_of_the_document(units, folder):
    before = (folder / "found.rig.toml").read_text()
    length = units.locator("#cables input[aria-label^='Length']").first
    length.fill("long")
    length.press("Enter")
    units.wait_for_selector("#said.bad:has-text('is not a length')")
    assert length.get_attribute("aria-invalid") == "true"
    assert (folder / "found.rig.toml").read_text() == before
    length.fill("450")
    length.press("Enter")
    units.wait_for_function("() => !document.querySelector('#undo').disabled")
    assert "length = 450" in (folder / "found.rig.toml").read_text()


def test_a_unit_goes_earlier_with_its_comments(units, folder):
    file = folder / "found.rig.toml"
    before = file.read_text()
    ids = [one["id"] for one in tomllib.loads(before)["unit"]]
    assert units.get_by_role("button", name=f"{ids[0]} earlier", exact=True).is_disabled()
    button = units.get_by_role("button", name=f"{ids[2]} earlier", exact=True)
    button.press("Enter")
    units.wait_for_function(
        "(id) => document.querySelectorAll('#units > section')[1].id === `unit-${id}`", arg=ids[2]
    )
    after = file.read_text()
    assert [one["id"] for one in tomllib.loads(after)["unit"]][:3] == [ids[0], ids[2], ids[1]]
    assert sorted(after.splitlines()) == sorted(before.splitlines())
    assert units.evaluate("document.activeElement.getAttribute('aria-label')") == (
        f"{ids[2]} earlier"
    )
    button.press("Enter")
    units.get_by_role("button", name=f"{ids[2]} later", exact=True).press("Enter")
    units.locator("#undo").click()
    units.locator("#undo").click()
    units.locator("#undo").click()
    units.wait_for_selector("#undo:disabled")
    assert file.read_text() == before


def test_a_unit_is_called_otherwise_and_its_facts_are_filled_in(units, folder):
    def held():
        return tomllib.loads((folder / "found.rig.toml").read_text())

    def until(is_so):
        for _ in range(80):
            if is_so(held()):
                return
            units.wait_for_timeout(50)
        pytest.fail(f"it did not come to be so: {units.locator('#said').inner_text()}")

    card = units.locator("#unit-delay")
    card.get_by_text("More about delay").click()
    remark = card.get_by_label("delay: about", exact=True)
    remark.fill("The one with the dented corner")
    remark.press("Enter")
    until(
        lambda rig: any(one.get("about") == "The one with the dented corner" for one in rig["unit"])
    )
    name = card.get_by_label("delay: id", exact=True)
    name.fill("echo")
    name.press("Enter")
    units.wait_for_selector("#unit-delay .reason:has-text('already')")
    name.fill("tape")
    name.press("Enter")
    units.wait_for_function(
        "() => document.activeElement.getAttribute('aria-label') === 'tape: id'"
    )
    assert not any("delay" in one for one in held()["preset"])
    assert units.locator("#unit-delay").count() == 0
    units.locator("#undo").click()
    units.wait_for_selector("#unit-delay")
    until(lambda rig: any("delay" in one for one in rig["preset"]))


def test_how_this_very_unit_fails_is_written_down(units, folder):
    card = units.locator("#unit-delay")
    card.get_by_text("More about delay").click()
    card.locator("summary", has_text="odds").click()
    form = card.locator("form.add-fact")
    for field in form.locator("input, select").all():
        hint = field.get_attribute("placeholder") or ""
        assert field.get_attribute("aria-label").startswith("odds: new ")
        if field.evaluate("one => one.tagName") == "SELECT":
            field.select_option(index=1)
        else:
            field.fill(hint.removeprefix("such as "))
    form.locator("button").click()
    units.wait_for_selector("#unit-delay [data-clause^='unit[delay].odds[']")
    odds = next(
        one
        for one in tomllib.loads((folder / "found.rig.toml").read_text())["unit"]
        if one["id"] == "delay"
    )["odds"]
    assert len(odds) == 1
