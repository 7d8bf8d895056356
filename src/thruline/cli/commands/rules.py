"""`rules`: every rule, or one of them explained."""

import textwrap

import click

from thruline.app.answer import Json, answer
from thruline.cli.show import give_json, say, say_all, styled, table
from thruline.proof.rule import Rule
from thruline.proof.rulebook import rule_called, rulebook

WIDTH = 92


@click.command("rules", epilog="Exit code 2 when there is no such rule, otherwise 0.")
@click.argument("rule", required=False)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rule: str | None, *, as_json: bool) -> int:
    """List the rules that a proof holds against a rig, or explain one.

    RULE is a name, or a word: where several rules have it, they are listed.

    An explanation says why it matters, and shows a rig that fails and one that does not.
    """
    found = _with_word(rule) if rule else rulebook()
    chosen = found or (rule_called(rule or ""),)
    if as_json:
        give_json(answer("rules", rules=[_json(one) for one in chosen]))
    elif rule and len(chosen) == 1:
        _explain(chosen[0])
    else:
        rows = [(one.id, one.severity.value, one.title) for one in chosen]
        say_all(table(("rule", "severity", "what it finds"), rows))
        say()
        say(f"{len(rows)} rules; `thruline rules RULE` explains one")
    return 0


def _with_word(word: str) -> tuple[Rule, ...]:
    """The rule of this name, or those whose name, title or reason has the word; none if none do."""
    named = tuple(one for one in rulebook() if one.id == word)
    if named or "." in word:
        return named
    sought = word.lower()
    return tuple(one for one in rulebook() if sought in f"{one.id} {one.title} {one.why}".lower())


def _explain(rule: Rule) -> None:
    say(styled(rule.title, "strong"))
    say(styled(f"{rule.id}, {rule.severity.value}", "quiet"))
    say()
    say_all(textwrap.wrap(rule.why, WIDTH))
    for head, example in (("This fails:", rule.failing), ("This passes:", rule.passing)):
        say()
        say(styled(head, "strong"))
        say_all(f"    {row}".rstrip() for row in example.rig.strip().splitlines())


def _json(rule: Rule) -> Json:
    return {
        "id": rule.id,
        "title": rule.title,
        "severity": rule.severity.value,
        "why": rule.why,
        "failing": rule.failing.rig.strip(),
        "passing": rule.passing.rig.strip(),
    }
