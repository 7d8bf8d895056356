"""The timing chart on its page, read with pointer and keyboard."""

import pytest


def opened(page, bench, query=""):
    page.goto(f"{bench.address}/rig/found/line{query}")
    page.wait_for_selector("#messages tbody tr")
    return page


def test_the_first_preset_is_shown_with_what_goes_wrong(page, bench):
    opened(page, bench)
    assert "messages are not obeyed" in page.locator("#heading").inner_text()
    assert page.locator("#chart svg [data-message]").count() > 5


def test_the_bound_is_told(page, bench):
    page.goto(f"{bench.address}/rig/good/line")
    page.wait_for_selector("#compared:has-text('no order can be below')")
    assert "all right at" in page.locator("#heading").inner_text()


def test_any_preset_from_any_preset(page, bench):
    opened(page, bench)
    page.locator("#preset").select_option("5")
    page.wait_for_selector("#heading:has-text('5 \"')")
    page.locator("#from").select_option("13")
    page.wait_for_selector("#heading:has-text('coming from 13')")
    assert "preset=5&from=13" in page.url


def test_messages_are_read_with_the_keyboard(page, bench):
    opened(page, bench)
    page.locator("#messages tbody tr").first.focus()
    page.keyboard.press("ArrowDown")
    assert page.locator("#messages tr[aria-selected=true]").get_attribute("data-number") == "2"
    assert page.locator("#chart .stands-out").first.get_attribute("data-message") == "2"
    assert "→" in page.locator("#one ol li").first.inner_text()


def test_it_settles_for_the_order_that_was_looked_for_hardest(page, bench):
    """And who reads a message with the keyboard meanwhile stays there."""
    page.route("**/line.json*settled=yes*", _with_another_heading)
    opened(page, bench)
    page.locator("#messages tbody tr").nth(1).focus()
    page.wait_for_selector("#heading:has-text('settled')")
    assert page.evaluate("document.activeElement.dataset.number") == "2"


def _with_another_heading(route):
    answer = route.fetch()
    route.fulfill(response=answer, json={**answer.json(), "heading": "settled"})


def test_pointing_at_a_line_reads_its_message(page, bench):
    opened(page, bench)
    page.locator("#chart [data-message='3']").first.dispatch_event("pointerover")
    assert page.locator("#one strong").inner_text().startswith("3. ")


def test_the_chart_follows_a_mend(page, bench):
    opened(page, bench)
    before = page.locator("#heading").inner_text()
    page.locator(".mend", has_text="echo.midi-out").click()
    page.wait_for_selector("#said:has-text('Gone:')")
    for _ in range(8):
        proof = page.locator("#proof").inner_text()
        page.locator(".card.fault .mend").first.click()
        page.wait_for_function(
            "(old) => document.querySelector('#proof').innerText !== old", arg=proof
        )
        page.wait_for_load_state("networkidle")
        if page.locator("#heading").inner_text() != before:
            return
    pytest.fail("the heading never changed")
