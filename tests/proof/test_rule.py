"""What a rule is."""

from collections.abc import Callable, Iterable

from thruline.base.address import at
from thruline.proof.evidence import facts
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Example, Rule, Scope, rule_id


def nothing(*_: object) -> Iterable[Result]:
    return ()


def rule(**look: Callable[..., Iterable[Result]]) -> Rule:
    return Rule(
        id="family.name",
        title="A title",
        severity=Severity.RISK,
        why="Because.",
        failing=Example(""),
        passing=Example(""),
        **look,
    )


def test_an_id_is_the_place_of_the_file() -> None:
    assert rule_id("thruline.proof.rules.time.two_clocks") == "time.two-clocks"


def test_the_scope_follows_from_the_look() -> None:
    looks = {
        "look_board": Scope.BOARD,
        "look_preset": Scope.PRESET,
        "look_memory": Scope.MEMORY,
        "look_whole": Scope.WHOLE,
        "look_findings": Scope.FINDINGS,
    }
    for name, scope in looks.items():
        assert rule(**{name: nothing}).scope is scope


def test_a_finding_takes_the_rules_severity_unless_told_otherwise() -> None:
    made = rule(look_whole=nothing)
    evidence = [facts(("a", "b"))]
    assert made.finding("x", at("rig"), evidence=evidence).severity is Severity.RISK
    worse = made.finding("x", at("rig"), evidence=evidence, severity=Severity.FAULT)
    assert worse.severity is Severity.FAULT
    assert worse.rule == "family.name"


def test_what_cannot_be_told_names_the_rule() -> None:
    made = rule(look_whole=nothing).untold("cannot be told", at("unit", "a"), lacks="settle")
    assert (made.rule, made.lacks) == ("family.name", "settle")
