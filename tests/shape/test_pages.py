"""Whatever a user can type, write, read or call is told on a page."""

import re
from functools import cache

import pytest

import thruline
from thruline.proof.rulebook import rulebook
from tools.environment import ROOT
from tools.json_words import WORDS
from tools.reference.answers import answers, meaning, plain
from tools.reference.commands import commands
from tools.reference.documents import KINDS, tables

DOCS = ROOT / "docs"
COMMANDS = dict(commands())
LEAVES = [name for name, command in COMMANDS.items() if not hasattr(command, "commands")]

# Answers are not followed into these, so no run shows the keys below them.
NOT_FOLLOWED = {"reason"}


@cache
def page(name):
    return (DOCS / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_and_its_options_are_told(name):
    section = page("reference/commands.md").split(f"\n## thruline {name}\n")[1].split("\n## ")[0]
    for option in COMMANDS[name].params:
        assert option.param_type_name == "argument" or option.opts[0] in section


@pytest.mark.parametrize("name", LEAVES)
def test_every_command_says_its_exit_codes(name):
    assert (COMMANDS[name].epilog or "").startswith("Exit code ")


@pytest.mark.parametrize("name", LEAVES)
def test_every_answer_is_told(name):
    assert f"\n## thruline {name} --json\n" in page("reference/json.md")


def test_every_rule_is_told():
    for rule in rulebook():
        family = rule.id.partition(".")[0]
        assert f"(`{rule.id}`, " in page(f"reference/rules/{family}.md")
        assert rule.id.partition(".")[2] in page("reference/rules.md")


@pytest.mark.parametrize("kind", ["rig", "chart"])
def test_every_key_of_a_document_is_told(kind):
    for place in tables(KINDS[kind]):
        title = f"`{place.header}`" if place.header else "At the top"
        section = page(f"reference/{kind}-keys.md").split(f"\n## {title}\n")[1].split("\n## ")[0]
        told = set(re.findall(r"^\| `([a-z-]+)` \|", section, re.MULTILINE))
        assert told == set(place.schema["properties"])


def test_every_public_name_is_told():
    text = page("reference/python.md")
    assert all(re.search(rf"\b{name}\b", text) for name in thruline.__all__)


def test_every_key_of_an_answer_has_its_words():
    unknown = [
        (name, way)
        for name, keys in answers().items()
        for way in keys
        if meaning(name, way) is None
    ]
    assert not unknown, f"say in tools/json_words.py what these mean: {unknown}"


def test_no_words_are_left_of_keys_that_have_gone():
    ways = [f"{name.split()[0]}.{plain(way)}" for name, keys in answers().items() for way in keys]
    gone = [
        word
        for word in WORDS
        if word not in NOT_FOLLOWED and not any(f".{way}".endswith(f".{word}") for way in ways)
    ]
    assert not gone, f"no answer has these any more: {gone}"


def test_every_how_to_is_on_the_first_page():
    linked = set(re.findall(r"\(how/([a-z-]+\.md)\)", page("index.md")))
    assert linked == {file.name for file in (DOCS / "how").iterdir()}
