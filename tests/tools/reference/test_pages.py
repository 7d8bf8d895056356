"""The kinds of generated pages, each on its own."""

import click

from thruline.find.kinds import Kind
from thruline.proof.rulebook import rulebook
from tools.reference import answers, commands, documents, faults, rules


def test_a_rule_shows_what_makes_it_pass():
    for rule in rulebook():
        rows = rules.change(rule).splitlines()
        assert any(row[:1] in "+-" for row in rows), rule.id
        assert rule.why in rules.section(rule)


def test_a_cell_holds_no_bar_and_no_row_end():
    assert rules.in_cell("a | b\nc") == "a \\| b c"


def test_a_command_shows_how_it_is_called():
    @click.command("mix", epilog="Exit code 0.")
    @click.argument("rig")
    @click.option("--how", metavar="WAY", help="In which way.")
    def mix(rig, how):
        """Mix a rig."""

    told = commands.section("thruline mix", mix)
    assert "thruline mix [OPTIONS] RIG" in told
    assert "| `--how WAY` | In which way. |" in told
    assert told.rstrip().endswith("Exit code 0.")


def test_keys_show_where_they_stand_and_what_they_hold():
    page = dict(documents.pages())["rig-keys.md"]
    assert "## `[[sweep.moves]]`" in page
    assert "| `channel` | The channel the unit is set to. Left out, " in page
    assert "| `slowest-change-ms` |" in page.split("## `[rig]`")[1].split("\n## ")[0]
    assert "must be there" in page


def test_examples_come_from_the_samples():
    page = dict(documents.pages())["chart-keys.md"]
    assert '| `maker` | text | must be there | `"Bramley"` |' in page


def test_words_of_a_key_are_found_by_the_longest_end():
    assert answers.meaning("new", "counts.fault") == "what was meant does not happen"
    assert answers.meaning("trace", "written") == "the files that were written"
    assert answers.meaning("mend", "written") == "whether the document was written"
    assert answers.meaning("prove", "xyz") is None


def test_kinds_of_what_keys_hold():
    kinds = {}
    answers._gather({"a": [{"b": 1}, {"b": None}], "document": {"c": 1}}, "", kinds)
    assert kinds == {"a": {"list"}, "a[].b": {"number", "null"}, "document": {"table"}}


def test_every_kind_of_fault_stands_in_one_table():
    page = dict(faults.pages())["faults.md"]
    listed = [kind for starts in faults.ABOUT.values() for kind in faults.kinds_about(starts)]
    assert sorted(listed) == sorted(Kind)
    assert all(page.count(f"| `{kind}` |") == 1 for kind in Kind)
    assert f"the {len(Kind)} kinds of fault" in page
    assert "{" not in page
