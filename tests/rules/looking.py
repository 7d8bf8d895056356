"""What one rule finds in a small board, and the board with a mend of it."""

from tests.opening import open_text, with_head
from thruline.app.mend import State, after_edits, state_of
from thruline.proof.finding import Finding, Mend
from thruline.proof.rule import Example, Rule


def state(example: Example) -> State:
    return state_of(open_text(with_head(example.rig), *example.charts))


def found(rule: Rule, example: Example) -> list[Finding]:
    return [one for one in state(example).proof.findings if one.rule == rule.id]


def mended(example: Example, mend: Mend) -> State:
    return after_edits(state(example), mend.edits)
