"""Curves dragged with pointer and keyboard."""

import pytest

from tests.workbench.asking import act, ask

MADE = "() => !document.querySelector('#undo').disabled"


@pytest.fixture
def sweeps(page, bench):
    page.goto(f"{bench.address}/rig/good/sweeps")
    page.wait_for_selector("body[data-loaded]")
    return page


def handle(page):
    return page.locator("section[aria-label=Swell] [data-end=toe]").first


def test_an_end_is_dragged(sweeps, folder):
    before = int(handle(sweeps).get_attribute("aria-valuenow"))
    handle(sweeps).scroll_into_view_if_needed()
    box = handle(sweeps).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    sweeps.mouse.move(x, y)
    sweeps.mouse.down()
    sweeps.mouse.move(x, y + 20, steps=3)
    sweeps.mouse.up()
    sweeps.wait_for_function(MADE)
    assert int(handle(sweeps).get_attribute("aria-valuenow")) < before
    assert 'toe = "80%"' not in (folder / "good.rig.toml").read_text()


def test_an_end_is_moved_with_the_keyboard(sweeps):
    before = int(handle(sweeps).get_attribute("aria-valuenow"))
    handle(sweeps).focus()
    sweeps.keyboard.press("ArrowUp")
    sweeps.keyboard.press("ArrowUp")
    sweeps.wait_for_function(MADE)
    sweeps.wait_for_timeout(200)
    assert int(handle(sweeps).get_attribute("aria-valuenow")) == before + 2
    assert sweeps.evaluate("document.activeElement.dataset.end") == "toe"


@pytest.fixture
def points(sweeps):
    """The page with the curve of a move turned into points."""
    swell(sweeps).locator("select").first.select_option("points")
    sweeps.wait_for_selector("section[aria-label=Swell] .point")
    return sweeps


def swell(page):
    return page.locator("section[aria-label=Swell] .move").first


def point(page, number):
    return swell(page).locator(f"[data-point='{number - 1}']")


def share_of(page, number):
    return swell(page).locator(".points li").nth(number - 1).locator("input").nth(1)


def turns_to(page, count):
    page.wait_for_function(
        "count => document.querySelector('section[aria-label=Swell] .move')"
        ".querySelectorAll('.point').length === count",
        arg=count,
    )


def test_a_shape_becomes_points_and_a_shape_again(points, folder):
    file = folder / "good.rig.toml"
    assert "curve = [[0, 0], [" in file.read_text()
    names = [one.get_attribute("aria-label") for one in swell(points).locator(".point").all()]
    assert [one.split(", ")[1] for one in names] == [f"point {n + 1}" for n in range(len(names))]
    assert (
        swell(points).locator("option:has-text('(nearest)')").inner_text()
        == "s: slow at both ends (nearest)"
    )
    swell(points).locator("select").first.select_option("s")
    turns_to(points, 0)
    assert 'curve = "s"' in file.read_text()


def test_a_point_is_moved_with_the_keyboard_and_undone_as_one(points):
    stairs = swell(points).locator(".stairs")
    before, drawn = share_of(points, 3).input_value(), stairs.get_attribute("d")
    point(points, 3).focus()
    points.keyboard.press("Shift+ArrowUp")
    points.keyboard.press("ArrowUp")
    points.keyboard.press("ArrowRight")
    now = str(int(before) + 11)
    points.wait_for_function(
        "now => document.querySelector('section[aria-label=Swell] .points li:nth-child(3)')"
        ".querySelectorAll('input')[1].value === now",
        arg=now,
    )
    assert points.evaluate("document.activeElement.dataset.point") == "2"
    assert f"{now} % of the way" in point(points, 3).get_attribute("aria-valuetext")
    assert stairs.get_attribute("d") != drawn
    points.locator("#undo").click()
    points.wait_for_function(
        "drawn => document.querySelector('section[aria-label=Swell] .stairs')"
        ".getAttribute('d') === drawn",
        arg=drawn,
    )
    assert share_of(points, 3).input_value() == before


def test_a_point_is_dragged_but_not_past_its_neighbour(points, folder):
    point(points, 2).scroll_into_view_if_needed()
    box, far = point(points, 2).bounding_box(), point(points, 4).bounding_box()
    text = (folder / "good.rig.toml").read_text()
    points.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    points.mouse.down()
    points.mouse.move(far["x"] + far["width"] / 2, box["y"] - 20, steps=4)
    points.mouse.up()
    third = swell(points).locator(".points li").nth(2).locator("input").first.input_value()
    points.wait_for_function(
        "third => document.querySelector('section[aria-label=Swell] .points li:nth-child(2)')"
        ".querySelector('input').value === third",
        arg=third,
    )
    assert (folder / "good.rig.toml").read_text() != text


def test_points_come_and_go(points):
    count = swell(points).locator(".point").count()
    swell(points).get_by_role("button", name="Add a point to").click()
    turns_to(points, count + 1)
    point(points, 2).focus()
    points.keyboard.press("Delete")
    turns_to(points, count)
    swell(points).locator(".field").dblclick(position={"x": 30, "y": 10})
    turns_to(points, count + 1)
    swell(points).get_by_role("button", name="Take point 2 of").click()
    turns_to(points, count)


def test_a_point_that_the_document_cannot_have(points, folder):
    before = (folder / "good.rig.toml").read_text()
    share_of(points, 2).fill("120")
    share_of(points, 2).press("Enter")
    points.wait_for_selector("#said.bad:has-text('its share is from 0 % to 100 %, not 120')")
    assert share_of(points, 2).get_attribute("aria-invalid") == "true"
    for count in range(swell(points).locator(".point").count() - 1, 1, -1):
        point(points, count).focus()
        points.keyboard.press("Delete")
        turns_to(points, count)
    point(points, 1).focus()
    two = (folder / "good.rig.toml").read_text()
    points.keyboard.press("Delete")
    points.wait_for_selector("#said.bad:has-text('needs two points at least')")
    assert (folder / "good.rig.toml").read_text() == two != before


def test_what_makes_no_sense_is_marked(sweeps, folder):
    before = (folder / "good.rig.toml").read_text()
    field = sweeps.get_by_label("Presets of Swell", exact=True)
    field.fill("some of them")
    field.press("Enter")
    sweeps.wait_for_selector("#said.bad:has-text('read like 3, 7, 11')")
    assert field.get_attribute("aria-invalid") == "true"
    assert (folder / "good.rig.toml").read_text() == before


def test_a_sweep_gets_another_name_and_another_pedal(sweeps, folder):
    name = sweeps.locator("#sweeps h2").first.inner_text()
    pedal = sweeps.get_by_label(f"Pedal of {name}")
    other = next(
        one for one in pedal.locator("option").all_inner_texts() if one != pedal.input_value()
    )
    pedal.select_option(other)
    sweeps.wait_for_function("() => !document.querySelector('#undo').disabled")
    sweeps.get_by_label(f"Name of {name}").fill("Slow swell")
    sweeps.get_by_label(f"Name of {name}").press("Enter")
    sweeps.wait_for_selector("#sweeps h2:has-text('Slow swell')")
    text = (folder / "good.rig.toml").read_text()
    assert 'name = "Slow swell"' in text
    assert f'pedal = "{other}"' in text


def test_a_sweep_is_added_and_removed(sweeps):
    count = sweeps.locator(".sweep").count()
    sweeps.locator("#add button").click()
    sweeps.wait_for_selector(".sweep[aria-label='Sweep 1']")
    sweeps.get_by_role("button", name="Remove Sweep 1").click()
    sweeps.wait_for_selector(".sweep[aria-label='Sweep 1']", state="detached")
    assert sweeps.locator(".sweep").count() == count


def test_it_fits_a_telephone(points):
    points.set_viewport_size({"width": 390, "height": 780})
    assert points.evaluate("document.documentElement.scrollWidth") <= 390


def test_one_more_move_is_not_of_a_control_that_is_moved_already(sweeps, bench):
    told = ask(bench, "good", "sweeps")
    moved = {
        f"{move['unit']}: {move['control']}" for one in told["sweeps"] for move in one["moves"]
    }
    for select in sweeps.locator("select[aria-label^='One more move']").all():
        chosen = select.evaluate("one => one.selectedOptions[0].textContent")
        assert chosen not in moved


def test_two_moves_of_one_control_have_names_of_their_own(sweeps, bench):
    one = ask(bench, "good", "sweeps")["sweeps"][0]
    move = {"unit": "echo", "control": "mix", "heel": 0, "toe": 100}
    edits = [{"do": "add", "address": f"{one['address']}.moves", "value": move}] * 2
    status, told = act(bench, "good", "edit", edits=edits, seen=1)
    assert status == 200, told
    sweeps.wait_for_selector("button:has-text('Remove Laxton Echo Mix')")
    names = sweeps.locator("button:has-text('Remove Laxton Echo Mix')").all_inner_texts()
    assert len(names) == len(set(names)) == 2
