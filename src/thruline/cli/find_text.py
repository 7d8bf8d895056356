"""The dialogue of a search on a terminal: questions, suspects, the mend, in rows of text."""

from collections.abc import Iterator

from thruline.app.locate import confirm
from thruline.cli.show import styled
from thruline.find.checks import Check
from thruline.find.field import Field
from thruline.find.search import Verdict
from thruline.find.standing import Standing
from thruline.find.story import (
    asked_again,
    because,
    conclusion,
    doubt,
    minutes,
    percent,
    record,
    ruled_out,
    understood,
)
from thruline.find.trials import Trial

MOST_SHOWN = 4
HINT = "n not sure   c can't do that   b take back   s WORDS tell what you saw   w why   q stop"
AGAIN = "r try that again"


def standing_rows(standing: Standing, *, first: bool = False) -> Iterator[str]:
    """What a search says now, and what it asks; `first` when nothing of it was said before."""
    field = standing.belief.field
    told = ruled_out(field, standing.search)
    if told:
        yield styled("ruled out", "quiet")
        yield from (f"  {one}" for one in told)
    doubted = doubt(standing, in_full=first)
    if doubted is not None:
        yield styled(f"{doubted} (r)", "risk")
    yield from suspect_rows(standing)
    match standing.verdict:
        case Verdict.CHECK if standing.check is not None:
            yield ""
            yield from check_rows(field, standing.check)
            again = asked_again(standing)
            if again is not None:
                yield f"  ({again})"
            letters = HINT if standing.doubtful is None else f"{AGAIN}   {HINT}"
            yield styled(f"  {letters}   ({conclusion(standing)})", "quiet")
        case Verdict.MEND:
            yield ""
            yield from mend_rows(standing)
        case _:
            yield ""
            style = "good" if standing.verdict is Verdict.WORKS else "strong"
            yield styled(conclusion(standing), style)
            yield from (f"  {one}" for one in record(field, standing.search))


def understood_rows(standing: Standing) -> Iterator[str]:
    """What was made of the symptoms that somebody told, and how to correct that."""
    told = understood(standing.belief.field, standing.search)
    yield from told
    if told:
        yield styled(
            "  if that is not what you meant: b takes the last one back, b 1 the first", "quiet"
        )


def suspect_rows(standing: Standing) -> Iterator[str]:
    """The likeliest suspects, with how likely each is."""
    belief = standing.belief
    rows = [(share, one.says) for one, share in belief.ranked()[:MOST_SHOWN]]
    rows.append((belief.nothing, "nothing is wrong"))
    rows.append((belief.other, "something that is not among the suspects"))
    rows.append((belief.both, "two of these at once (counted in above)"))
    for share, says in sorted(rows, key=lambda one: -one[0]):
        if share >= 0.01:
            yield f"  {percent(share):>9}  {says}"


def check_rows(field: Field, check: Check) -> Iterator[str]:
    """A question and its answers, numbered."""
    yield styled(check.asks, "strong") + f"  ({minutes(check.seconds)})"
    if check.caution:
        yield styled(check.caution, "risk")
    if check.trial is Trial.GLANCE:
        for number, unit in enumerate(check.units, 1):
            yield f"  {number}  {field.meant.rig.units[unit].name} ({unit})"
        yield "  the numbers of those that are not right, or none"
    else:
        for number, says in enumerate(check.answers.values(), 1):
            yield f"  {number}  {says}"


def mend_rows(standing: Standing) -> Iterator[str]:
    """What to mend, why, and how to confirm it."""
    suspect, check = standing.mend, confirm(standing)
    if suspect is None:
        return
    yield styled(conclusion(standing), "fault")
    yield from (f"  seen: {one}" for one in because(standing, suspect))
    yield styled(f"mend: {suspect.mend}", "strong")
    if check is not None:
        yield f"then: {check.asks}"
    yield styled("  m mended   b take back   q stop", "quiet")
