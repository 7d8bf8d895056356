import pytest

from thruline.outside.samples import AS_FOUND, ORCHARD_STREET, sample_text
from tools.browsing import browser, has_browser, served


@pytest.fixture(scope="module")  # its event loop would be in the way of others
def chromium():
    if not has_browser():
        pytest.skip("Chromium is not installed")
    with browser() as opened:
        yield opened


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    monkeypatch.delenv("THRULINE_STORE", raising=False)
    rigs = tmp_path / "rigs"
    rigs.mkdir()
    for name, sample in (("found", AS_FOUND), ("good", ORCHARD_STREET)):
        (rigs / f"{name}.rig.toml").write_text(sample_text(sample), encoding="utf-8")
    return rigs


@pytest.fixture
def bench(folder):
    with served(folder) as one:
        yield one


@pytest.fixture
def context(chromium):
    made = chromium.new_context(viewport={"width": 1280, "height": 800})
    made.set_default_timeout(8000)
    yield made
    made.close()


@pytest.fixture
def page(context, bench):
    """A page that fails its test when a script of it fails or is refused."""
    opened = context.new_page()
    troubles = []
    opened.on("pageerror", lambda one: troubles.append(str(one)))
    opened.on(
        "console",
        lambda one: (
            troubles.append(one.text)
            if "Content Security" in one.text or "Uncaught" in one.text
            else None
        ),
    )
    yield opened
    assert troubles == []


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """A browser on a machine that is busy elsewhere may be late: such a test is tried again."""
    for item in items:
        if "chromium" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.flaky(reruns=2))
