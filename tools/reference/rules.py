"""What a proof looks for: every rule with its reason and its examples, a page for each family."""

import importlib
from collections.abc import Iterator
from difflib import unified_diff
from itertools import groupby, islice

from thruline.proof.rule import Example, Rule
from thruline.proof.rulebook import rulebook

HEAD = """\
# Every rule

Made from the rules themselves. `thruline rules` lists them in the terminal, and
`thruline rules RULE` explains one.

A **fault** will not do what was meant; a **risk** may not, or not always; **advice** works and
could be better. Both examples of a rule are run as tests: the first gives its finding, the second
gives none. The head of a document (`format`, `[rig]`) is left out of them, and the units are
invented.
"""


def pages() -> Iterator[tuple[str, str]]:
    """A list of all rules, then a page for each family."""
    families = [(name, list(rules)) for name, rules in groupby(rulebook(), family)]
    yield "rules.md", "\n".join([HEAD, *(listed(name, rules) for name, rules in families)])
    for name, rules in families:
        head = f"# Rules about {name}\n\n{question(name)}\n"
        yield f"rules/{name}.md", "\n".join([head, *map(section, rules)])


def family(rule: Rule) -> str:
    """The family of a rule: the folder it lies in."""
    return rule.id.partition(".")[0]


def name_of(rule: Rule) -> str:
    """The name of a rule within its family."""
    return rule.id.partition(".")[2]


def question(name: str) -> str:
    """What a family asks, in its own words."""
    return importlib.import_module(f"thruline.proof.rules.{name}").__doc__ or ""


def listed(name: str, rules: list[Rule]) -> str:
    """The rules of a family as a table."""
    rows = [
        f"| [{name_of(rule)}](rules/{name}.md#{name_of(rule)}) | {rule.severity} "
        f"| {in_cell(rule.title)} |"
        for rule in rules
    ]
    head = ["| rule | severity | what it finds |", "|---|---|---|"]
    return "\n".join([f"## {name}", "", question(name), "", *head, *rows, ""])


def section(rule: Rule) -> str:
    """One rule, whole."""
    return "\n".join(
        [
            f"## {name_of(rule)}",
            "",
            f"**{rule.title}** (`{rule.id}`, {rule.severity})",
            "",
            rule.why,
            "",
            *block("This fails:", "toml", whole(rule.failing)),
            *block("With this change it passes:", "diff", change(rule)),
        ]
    )


def whole(example: Example) -> str:
    """A rig, and the charts that it brings along."""
    charts = [f"# a chart that it brings along\n{chart.strip()}" for chart in example.charts]
    return "\n\n".join([example.rig.strip(), *charts])


def change(rule: Rule) -> str:
    """What makes the failing example pass, as rows taken away and added."""
    before, after = (whole(one).splitlines() for one in (rule.failing, rule.passing))
    rows = islice(unified_diff(before, after, n=2, lineterm=""), 3, None)
    return "\n".join("..." if row.startswith("@@") else row for row in rows)


def block(head: str, language: str, text: str) -> list[str]:
    """A block of text with a sentence in front."""
    return [head, "", f"```{language}", text, "```", ""]


def in_cell(text: str) -> str:
    """Text fit for a cell of a table."""
    return " ".join(text.split()).replace("|", "\\|")
