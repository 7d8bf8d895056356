import pytest

from tests.samples.reading import FIRST_BOARD
from tools.console import refreshed, said_by


def test_what_a_command_says_is_put_in():
    made = refreshed("# Page\n\n```console\n$ thruline --version\nold\n```\n\nrest\n")
    assert made.startswith("# Page\n\n```console\n$ thruline --version\nthruline ")
    assert "old" not in made
    assert made.endswith("```\n\nrest\n")
    assert refreshed(made) == made


def test_a_page_runs_from_top_to_bottom():
    page = (
        "<!-- copy first-board/first-board.rig.toml to a.rig.toml -->\n"
        "<!-- remove a.rig.toml unit[echo].settings.control-receive -->\n"
        "```console\n$ thruline prove a.rig.toml | grep FAULT\n```\n"
        '<!-- set a.rig.toml unit[echo].settings.control-receive = "yes" -->\n'
        "```console\n$ thruline prove a.rig.toml\n```\n"
    )
    made = refreshed(page)
    assert "FAULT   Laxton Echo takes no control changes" in made
    assert "no faults, no risks" in made
    assert "proved in ... ms" in made


def test_files_that_a_page_writes():
    page = (
        "<!-- write charts/a.chart.toml -->\n\n```toml\nformat = 1\n```\n"
        '<!-- append charts/a.chart.toml -->\n\n```toml\n[chart]\nid = "a"\n```\n'
        "```toml\nnot = 'written'\n```\n"
        "```console\n$ thruline chart check charts/a.chart.toml | grep missing\n```\n"
    )
    assert 'charts/a.chart.toml:2:1: "maker" is missing' in refreshed(page)


@pytest.mark.parametrize(
    ("cut", "rows"),
    [("head -1", 1), ("tail -2", 2), ("grep power.wrong", 3), ("grep -A 4 power.wrong", 5)],
)
def test_output_may_be_cut(cut, rows):
    assert len(said_by(f"thruline rules | {cut}")) == rows


@pytest.mark.parametrize("command", ["rm -r .", "thruline rules | sort -r"])
def test_nothing_else_is_run(command):
    with pytest.raises(ValueError, match=r"only thruline|cannot be done"):
        said_by(command)


def test_no_sample_is_changed():
    before = FIRST_BOARD.read_bytes()
    refreshed(
        "<!-- copy first-board/first-board.rig.toml to a.rig.toml -->"
        '<!-- set a.rig.toml rig.name = "Mine" -->'
    )
    assert FIRST_BOARD.read_bytes() == before
