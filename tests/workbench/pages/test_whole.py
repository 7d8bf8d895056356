"""The rig's own facts, the way of the sound, songs, and findings that are lived with."""

import tomllib

import pytest


@pytest.fixture
def whole(page, bench):
    page.goto(f"{bench.address}/rig/good/whole")
    page.wait_for_selector("body[data-loaded]")
    return page


@pytest.fixture
def held(folder):
    return lambda: tomllib.loads((folder / "good.rig.toml").read_text())


def _until_said(page, held, is_so):
    for _ in range(80):
        if is_so(held()):
            return
        page.wait_for_timeout(50)
    pytest.fail(f"it did not come to be so: {page.locator('#said').inner_text()}")


def test_the_rig_is_renamed(whole, held):
    name = whole.get_by_label("rig: name", exact=True)
    name.fill("Second chair")
    name.press("Enter")
    _until_said(whole, held, lambda rig: rig["rig"]["name"] == "Second chair")
    whole.wait_for_selector("header .rig:has-text('Second chair')")


def test_a_song_is_added_changed_moved_and_removed(whole, held):
    before = held().get("song", [])
    whole.get_by_label("song: new name", exact=True).fill("Encore")
    whole.get_by_label("song: new presets", exact=True).fill("11, 12")
    whole.get_by_label("song: new presets", exact=True).press("Enter")
    _until_said(whole, held, lambda rig: len(rig["song"]) == len(before) + 1)
    assert held()["song"][-1] == {"name": "Encore", "presets": [11, 12]}
    whole.locator("[data-clause='song[Encore]'] > summary").press("Enter")
    tempo = whole.get_by_label("song Encore: tempo", exact=True)
    tempo.fill("fast")
    tempo.press("Tab")
    whole.wait_for_selector("[data-address='song[Encore].tempo'][aria-invalid]")
    assert "for example 96" in whole.locator("[id='why-song[Encore].tempo']").inner_text()
    assert "tempo" not in held()["song"][-1]
    tempo.fill("120")
    tempo.press("Tab")
    _until_said(whole, held, lambda rig: rig["song"][-1].get("tempo") == 120)
    whole.get_by_role("button", name="song Encore earlier", exact=True).press("Enter")
    _until_said(whole, held, lambda rig: rig["song"][-2]["name"] == "Encore")
    whole.get_by_role("button", name="Remove song Encore", exact=True).press("Enter")
    _until_said(whole, held, lambda rig: rig["song"] == before)


def test_what_is_refused_stays_while_something_else_is_changed(whole, held):
    whole.get_by_label("rig: slowest change, ms", exact=True).fill("soon")
    whole.get_by_label("rig: slowest change, ms", exact=True).press("Tab")
    whole.wait_for_selector("[data-address='rig.slowest-change-ms'][aria-invalid]")
    whole.get_by_label("rig: about", exact=True).fill("For the pit")
    whole.get_by_label("rig: about", exact=True).press("Tab")
    _until_said(whole, held, lambda rig: rig["rig"].get("about") == "For the pit")
    field = whole.get_by_label("rig: slowest change, ms", exact=True)
    assert field.input_value() == "soon"
    assert field.get_attribute("aria-invalid") == "true"


def test_the_way_of_the_sound_is_typed(whole, held):
    path = held()["audio"]["path"]
    field = whole.get_by_label("audio: path", exact=True)
    assert field.input_value() == ", ".join(path)
    field.fill(", ".join([path[0], path[-1]]))
    field.press("Tab")
    _until_said(whole, held, lambda rig: rig["audio"]["path"] == [path[0], path[-1]])


def test_a_finding_is_lived_with_for_a_reason(page, bench, folder):
    page.goto(f"{bench.address}/rig/found/whole")
    page.wait_for_selector("body[data-loaded]")
    card = page.locator("#findings article").first
    card.locator("summary", has_text="Live with it").press("Enter")
    card.locator("input").fill("The player wants it so")
    card.locator("input").press("Enter")
    page.wait_for_selector("#findings summary:has-text('1 accepted')")
    assert "The player wants it so" in (folder / "found.rig.toml").read_text()
