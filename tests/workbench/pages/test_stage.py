"""The stage page on a telephone, also when the workbench is gone."""

import re

import pytest

from tools.browsing import served

LONG = [
    "An extraordinarily long name of a preset that goes on and on to see it break ",
    "Donaudampfschifffahrtselektrizitaetenhauptbetriebswerkbauunterbeamtengesell",
]


@pytest.fixture
def stage(chromium, bench):
    context = chromium.new_context(viewport={"width": 390, "height": 780}, has_touch=True)
    context.set_default_timeout(8000)
    page = context.new_page()
    page.goto(f"{bench.address}/rig/good/stage")
    page.wait_for_selector("body[data-ready]")
    yield page
    context.close()


@pytest.mark.parametrize(("width", "height"), [(390, 780), (195, 390)])
def test_next_stays_in_sight_whatever_presets_are_called(stage, bench, folder, width, height):
    file, count = folder / "good.rig.toml", 0

    def long(found):
        nonlocal count
        count += 1
        return f'{found[1]}"{LONG[count % 2]}{count}"'

    file.write_text(re.sub(r'(\[\[preset]]\nnumber = \d+\nname = )"[^"]*"', long, file.read_text()))
    stage.set_viewport_size({"width": width, "height": height})
    stage.wait_for_selector("#name:has-text('1')")
    stage.reload()
    stage.wait_for_selector("#now.longer")
    for _ in range(2):
        box = stage.locator("#on").bounding_box()
        assert box["x"] + box["width"] <= width
        assert box["y"] + box["height"] <= height
        assert stage.evaluate("document.querySelector('#on').scrollWidth <= innerWidth")
        stage.locator("#on").tap()
    stage.locator("#set summary").tap()
    assert stage.evaluate("document.documentElement.scrollWidth") <= width


def test_next_and_back(stage):
    first = stage.locator("#now").inner_text()
    told = stage.locator("#next").inner_text()
    stage.locator("#on").tap()
    now = stage.locator("#now").inner_text()
    assert now != first
    assert told.endswith(now.split("\n")[-1].strip())
    stage.keyboard.press("PageUp")
    assert stage.locator("#now").inner_text() == first
    assert stage.locator("#back").is_disabled()


def test_it_is_legible_and_fits_a_telephone(stage):
    assert stage.evaluate("document.documentElement.scrollWidth") <= 390
    size = stage.evaluate("parseFloat(getComputedStyle(document.querySelector('#now')).fontSize)")
    assert size >= 40
    ground = stage.evaluate("getComputedStyle(document.documentElement).backgroundColor")
    assert ground == "rgb(0, 0, 0)"
    assert stage.locator("#on").bounding_box()["height"] >= 60


def test_it_goes_on_without_the_workbench_and_catches_up(stage, bench, folder):
    stage.wait_for_selector("body[data-kept]")
    stage.evaluate("navigator.serviceWorker.ready.then(() => fetch(location.pathname))")
    stage.reload()
    stage.wait_for_selector("body[data-ready]")
    stage.locator("#on").tap()
    now = stage.locator("#now").inner_text()
    bench.stop()
    stage.wait_for_selector("#reach:has-text('on its own')")
    stage.reload()
    stage.wait_for_selector("#reach:has-text('on its own')")
    assert stage.locator("#now").inner_text() == now
    stage.locator("#on").tap()
    stage.locator("#back").tap()
    file = folder / "good.rig.toml"
    name = stage.locator("#name").inner_text()
    file.write_text(file.read_text().replace(f'name = "{name}"', 'name = "Renamed meanwhile"'))
    with served(folder, bench.port):
        stage.wait_for_selector("#name:has-text('Renamed meanwhile')")
        assert stage.locator("#reach").inner_text() == ""


def test_a_place_is_chosen_from_the_set(stage):
    stage.locator("summary").tap()
    button = stage.locator("#set button").nth(4)
    words = button.inner_text()
    button.tap()
    assert stage.locator("#now").inner_text().replace("\n", " ") == words


def test_it_is_saved_as_one_file(stage, tmp_path):
    now = stage.locator("#now").inner_text()
    with stage.expect_download() as coming:
        stage.get_by_role("link", name="Save as one file").tap()
    assert coming.value.suggested_filename == "good.stage.html"
    coming.value.save_as(tmp_path / "kept.html")
    stage.goto((tmp_path / "kept.html").as_uri())
    stage.wait_for_selector("body[data-ready]")
    assert stage.locator("#now").inner_text() == now
