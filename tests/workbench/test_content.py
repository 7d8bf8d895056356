import pytest

from thruline.workbench.content import Content, content_of
from thruline.workbench.pages import PAGES


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES)
def test_every_page_shows_something(page):
    assert isinstance(content_of(page), Content)
