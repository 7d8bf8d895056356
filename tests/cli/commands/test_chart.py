import pytest

from tests.cli.running import ran
from tests.samples.reading import CHART_FILES, FIRST_BOARD

BAD = 'format = 1\n[chart]\nid = "mine"\nmaker = "Bramley"\nmodel = "Delay"\nkimd = "delay"\n'
GOOD = BAD.replace("kimd", "kind")


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    return tmp_path


def test_list(capsys):
    done = ran(capsys, "chart", "list")
    assert done.code == 0
    assert "bramley-delay" in done.out
    assert f"{len(CHART_FILES)} charts; " in done.out


def test_list_of_one_kind(capsys):
    told = ran(capsys, "chart", "list", "--kind", "Delay", "--json").json
    assert {one["kind"] for one in told["charts"]} == {"delay"}
    assert "no chart is of the kind" in ran(capsys, "chart", "list", "--kind", "xyz").out


def test_list_with_own_charts(here, capsys):
    for folder in (here / "charts", here / "workshop" / "charts"):
        folder.mkdir(parents=True)
    (here / "charts" / "mine.chart.toml").write_text(BAD)
    (here / "workshop" / "charts" / "mine.chart.toml").write_text(GOOD)
    rows = [row for row in ran(capsys, "chart", "list").out.splitlines() if row.startswith("mine")]
    assert "cannot be read" in rows[0]
    assert "your workshop (not used" in rows[1]


def test_show(capsys):
    done = ran(capsys, "chart", "show", "bramley-delay")
    assert done.code == 0
    assert "MIDI implementation chart, version 1" in done.out
    assert max(map(len, done.out.splitlines())) <= 100
    assert "1. Basic information" in ran(capsys, "chart", "show", "bramley-delay", "--v2").out


@pytest.mark.parametrize(
    ("more", "title"),
    [((), "MIDI implementation chart, version 1"), (("--v2",), "1. Basic information")],
)
def test_the_sheet_as_a_page_and_a_table(here, capsys, more, title):
    page, table = here / "a.html", here / "a.csv"
    done = ran(capsys, "chart", "show", "bramley-delay", *more, "--html", page, "--csv", table)
    assert done.out.splitlines()[:2] == [f"written to {page}", f"written to {table}"]
    assert title in page.read_text()
    assert title in table.read_text()


def test_show_for_other_programs(capsys):
    told = ran(capsys, "chart", "show", "pippin-reverb", "--json").json
    assert told["answers"] == "chart show"
    assert told["document"]["chart"]["id"] == "pippin-reverb"


def test_show_a_file_that_lacks_something(here, capsys):
    (here / "mine.chart.toml").write_text(GOOD)
    done = ran(capsys, "chart", "show", "mine.chart.toml")
    assert done.code == 0
    assert done.out.endswith(
        "2 facts are not given; `thruline chart check mine.chart.toml` lists them\n"
    )


@pytest.mark.parametrize(
    ("word", "says"),
    [
        ("bramley-delai", 'did you mean "bramley-delay"?'),
        ("nothing.chart.toml", "is not there"),
        ("bad.chart.toml", "bad.chart.toml:6:1:"),
        (FIRST_BOARD, "is a rig, not a chart"),
        (".", "is a folder"),
        ("x" * 5000, "there is no chart"),
    ],
)
def test_show_what_cannot_be_shown(here, capsys, word, says):
    (here / "bad.chart.toml").write_text(BAD)
    done = ran(capsys, "chart", "show", word)
    assert (done.code, done.out) == (2, "")
    assert says in done.err


def test_check(here, capsys):
    (here / "mine.chart.toml").write_text(GOOD)
    (here / "bad.chart.toml").write_text(BAD)
    done = ran(capsys, "chart", "check", "mine.chart.toml")
    assert done.code == 0
    assert "whether it fits on the board" in done.out
    done = ran(capsys, "chart", "check", "mine.chart.toml", "bad.chart.toml")
    assert done.code == 2
    assert 'bad.chart.toml:6:1: "kimd" is not known here' in done.out
    assert "CANNOT BE USED  bad.chart.toml: 1 problem" in done.out


def test_check_for_other_programs(here, capsys):
    (here / "bad.chart.toml").write_text(BAD)
    done = ran(capsys, "chart", "check", "bramley-delay", "bad.chart.toml", "--json")
    assert done.code == 2
    assert [one["usable"] for one in done.json["charts"]] == [True, False]


def test_copy(here, capsys):
    (here / "rig").mkdir()
    done = ran(capsys, "chart", "copy", "bramley-delay", "rig/charts/my-delay.chart.toml")
    assert done.code == 0
    assert 'the chart "my-delay" now, copied from samples' in done.out
    copy = here / "rig" / "charts" / "my-delay.chart.toml"
    assert 'id = "my-delay"' in copy.read_text()
    assert ran(capsys, "chart", "check", copy).code == 0
    told = ran(capsys, "chart", "copy", copy, "again.chart.toml", "--json").json
    assert (told["chart"], told["copied_from"]) == ("again", str(copy))
    assert 'id = "again"' in (here / "again.chart.toml").read_text()


def test_what_is_there_is_not_copied_over(here, capsys):
    file = here / "mine.chart.toml"
    file.write_text(BAD)
    done = ran(capsys, "chart", "copy", "bramley-delay", file)
    assert done.code == 2
    assert "is there already" in done.err
    assert file.read_text() == BAD
    assert ran(capsys, "chart", "copy", file, "other.chart.toml").code == 2
    assert not (here / "other.chart.toml").exists()


@pytest.mark.parametrize(
    ("chart", "file", "says"),
    [
        ("bramley-delay", "my-delay.toml", "call it after its id"),
        ("bramley-delay", "My Delay.chart.toml", "cannot be the id"),
        ("bramley-delay", "no/such/my-delay.chart.toml", "no"),
        ("quince-box", "my-delay.chart.toml", "there is no chart"),
    ],
)
def test_what_cannot_be_copied(here, capsys, chart, file, says):
    done = ran(capsys, "chart", "copy", chart, file)
    assert done.code == 2
    assert says in done.err
    assert not list(here.rglob("*.toml"))


def test_embed(here, capsys):
    rig = here / "board.rig.toml"
    rig.write_text(FIRST_BOARD.read_text())
    assert "copied from samples" in ran(capsys, "chart", "embed", rig).out
    echo = here / "charts" / "laxton-echo.chart.toml"
    echo.write_text(echo.read_text() + "# mine\n")
    done = ran(capsys, "chart", "embed", rig)
    assert "differs from" in done.out
    assert "# mine" in echo.read_text()
    assert ran(capsys, "chart", "embed", rig, "--replace", "--json").code == 0
    assert "# mine" not in echo.read_text()


def test_embed_where_a_file_is_in_the_way(here, capsys):
    rig = here / "board.rig.toml"
    rig.write_text(FIRST_BOARD.read_text())
    (here / "charts").touch()
    done = ran(capsys, "chart", "embed", rig)
    assert done.code == 2
    assert "is a file, not a folder" in done.err
