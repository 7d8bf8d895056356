import pytest

from tests.samples.reading import CHART_FILES, FIRST_BOARD
from thruline import wiring
from thruline.base.errors import CannotUse


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv(wiring.WORKSHOP_VARIABLE, str(tmp_path / "workshop"))
    return tmp_path


@pytest.fixture
def rig(here):
    file = here / "board.rig.toml"
    file.write_bytes(FIRST_BOARD.read_bytes())
    return file


def test_the_workshop_is_where_the_variable_says(here, monkeypatch):
    assert wiring.workshop_folder() == here / "workshop"
    monkeypatch.delenv(wiring.WORKSHOP_VARIABLE)
    assert wiring.workshop_folder().name == "thruline"


def test_a_rig_is_opened_with_its_charts(rig):
    opened = wiring.open_file(rig)
    assert opened.document.file == str(rig)
    assert "laxton-echo" in opened.charts


def test_a_chart_beside_the_rig_goes_first(rig, here):
    text = next(f for f in CHART_FILES if "laxton" in f.name).read_text(encoding="utf-8")
    wiring.lay_beside(rig, {"laxton-echo": text.replace("Laxton", "Lobo").encode()})
    assert (here / "charts" / "laxton-echo.chart.toml").exists()
    assert wiring.open_file(rig).charts["laxton-echo"].maker == "Lobo"


def test_a_chart_that_lies_there_is_replaced_only_where_that_is_asked(rig, here):
    wiring.lay_beside(rig, {"laxton-echo": b"mine"})
    with pytest.raises(CannotUse, match="is there already"):
        wiring.lay_beside(rig, {"laxton-echo": b"other"})
    assert (here / "charts" / "laxton-echo.chart.toml").read_bytes() == b"mine"
    wiring.lay_beside(rig, {"laxton-echo": b"other"}, replace=True)
    assert (here / "charts" / "laxton-echo.chart.toml").read_bytes() == b"other"


@pytest.mark.parametrize(
    ("write", "wrong", "right"),
    [(wiring.write_page, "a.svg", "a.html"), (wiring.write_drawing, "a.html", "a.svg")],
)
def test_pages_and_drawings_are_called_what_they_are(here, *, write, wrong, right):
    with pytest.raises(CannotUse, match=f"should end in {right[1:]}$"):
        write(wrong, "x")
    write(right, "x")
    assert [file.name for file in here.iterdir()] == [right]


def test_no_chart_to_lay_makes_no_folder(rig, here):
    wiring.lay_beside(rig, {})
    assert not (here / "charts").exists()


def test_a_chart_is_named_by_id_or_by_file(here):
    assert wiring.open_chart_sheet("laxton-echo").file.startswith("samples/")
    (here / "laxton-echo").write_text("a file of that name goes first")
    assert wiring.open_chart_sheet("laxton-echo").content.startswith(b"a file")
    assert wiring.open_chart_sheet("./laxton-echo").file == "./laxton-echo"


def test_what_was_saved_can_be_taken_back(rig):
    before = rig.read_text()
    wiring.save(rig, "after", before=before)
    assert rig.read_text() == "after"
    wiring.take_back(rig)
    assert rig.read_text() == before
    with pytest.raises(CannotUse, match="nothing is kept"):
        wiring.take_back(rig)


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("boards/pit.rig.toml", "pit"), ("pit.book.pdf", "pit.book"), ("...rig.toml", "rig"),
        ("..rig.toml", "rig"), ("a..b.rig.toml", "a..b"),
    ],
)  # fmt: skip
def test_what_a_rig_is_called_leads_out_of_no_folder(file, name):
    assert wiring.rig_called(file) == name
