"""The Book page: the print, shown page by page, and made anew after an edit."""

import pytest

WAIT = 60000


@pytest.fixture
def book(page, bench):
    page.goto(f"{bench.address}/rig/good/book")
    page.wait_for_selector("body[data-ready]")
    return page


def _printed(page, before=""):
    """The key of the print that is shown, other than `before`."""
    page.wait_for_function(
        "(before) => (document.body.dataset.loaded ?? before) !== before && "
        "!document.querySelector('#pages[aria-busy]')",
        arg=before,
        timeout=WAIT,
    )
    return page.evaluate("document.body.dataset.loaded")


def _width(page, number):
    """Of the picture of a page, as it was sent."""
    place = f"document.querySelector('#page-{number} img')"
    page.wait_for_function(f"() => {place}.naturalWidth > 0", timeout=WAIT)
    return page.evaluate(f"{place}.naturalWidth")


def _choose(page, what, value):
    before = page.evaluate("document.body.dataset.loaded")
    page.locator(what).select_option(value)
    return _printed(page, before)


def test_papers_as_they_print_and_anew_after_an_edit(book, bench):
    whole = _printed(book)
    count = book.locator("#pages img").count()
    assert count > 30
    assert 300 < _width(book, 1) < 500
    pictures = "performance.getEntriesByType('resource').filter(one => one.name.endsWith('.png'))"
    assert book.evaluate(f"{pictures}.length") < count / 2  # those that are seen
    weight = f"{pictures}.reduce((sum, one) => sum + one.encodedBodySize, 0)"
    assert book.evaluate(weight) < 100_000
    book.locator("#go").select_option(index=book.locator("#go option").count() - 1)
    assert 300 < _width(book, count - 2) < 700  # a page far down comes when it is gone to

    book.locator("#large").check()
    book.locator("#go").select_option("0")
    book.wait_for_function("() => document.querySelector('#page-1 img').naturalWidth > 900")

    before = _choose(book, "#sheet", "settings")
    assert before != whole
    few = book.locator("#pages img").count()
    assert 1 <= few < 5
    assert "Settings" in book.locator("#page-1 img").get_attribute("alt")

    letter = _choose(book, "#paper", "letter")
    wide, high = book.evaluate(
        "[...document.querySelectorAll('#page-1 img')].flatMap(one => [one.width, one.height])"
    )
    assert abs(high / wide - 11 / 8.5) < 0.01
    with book.expect_download(timeout=WAIT) as taken:
        book.locator("#take").click()
    assert taken.value.suggested_filename == "good.settings.pdf"
    assert taken.value.path().read_bytes().startswith(b"%PDF-")

    book.evaluate(
        "import('/static/rig.js').then(rig => rig.edit(rig.set('unit[delay].name', 'Changed')))"
    )
    assert _printed(book, letter) != letter


def test_only_some_parts(book):
    whole = _printed(book)
    book.locator("#parts summary").press("Enter")
    for box in book.locator("#parts input").all():
        box.uncheck()
    book.wait_for_selector("#sum:has-text('at least one part')")
    book.locator("#parts input[value=power]").check()
    assert _printed(book, whole) != whole
    assert book.locator("#pages img").count() < 8


def test_a_print_can_be_stopped(book):
    book.locator("#stop").press("Enter", timeout=WAIT)
    book.wait_for_selector("#sum:has-text('Stopped')")
    assert book.locator("#making").is_hidden()
