"""The answer of an audit on paper: what differs, why that is likely so, and where to look."""

from collections.abc import Iterator

from thruline.app.audit import (
    cause_says,
    differences,
    odds_says,
    sum_rows,
    told_causes,
)
from thruline.app.captured import Drawn, captured_chart
from thruline.audit.capture import Capture
from thruline.audit.explain import Cause
from thruline.audit.meant import Meant
from thruline.audit.verdict import Ticked, Verdict
from thruline.audit.words import look_at
from thruline.base.errors import CannotUse
from thruline.papers.paper import Figure, Paper, Section, table_of
from thruline.proof.case import Case
from thruline.rig.whole import Rig

MOST_DRAWN = 6
"""Presses that are drawn: the first of those that differ. All of them are in the table."""
MEANS = (
    "What the controller really sent, held against the document. The odds weigh everything that "
    "was heard together; they are no proof, so look before you change anything."
)


def audit_paper(found: Verdict, meant: Meant, rig: Rig, *, made: str) -> Paper:
    """The report; `made` says when and by which version."""
    return Paper(
        title=f"Audit: {rig.name}",
        about=("; ".join(sum_rows(found)) + ".", MEANS, f"Made {made}."),
        sections=tuple(_sections(found, meant, rig)),
    )


def _sections(found: Verdict, meant: Meant, rig: Rig) -> Iterator[Section]:
    if found.unexplained:
        yield Section(
            title="What is not explained",
            says=("Read this first: no mistake that is known here accounts for it.",),
            table=table_of(("",), [(says,) for says in found.unexplained]),
        )
    told = told_causes(found)
    yield Section(
        title="The likeliest cause",
        table=table_of(
            ("odds", "what it would be", "look at"), [_cause(one, meant, rig) for one in told]
        ),
        notes=tuple(
            f"Just the same effect as the first: {cause_says(one, meant, rig)}."
            for one in told[0].same
        ),
    )
    yield Section(
        title="Press by press",
        says=("Missing: planned, and it did not come. Besides: it came, and is not planned.",),
        table=table_of(
            ("", "", "missing", "besides"), [_press(one, meant, rig) for one in found.ticks]
        ),
    )


def _cause(cause: Cause, meant: Meant, rig: Rig) -> tuple[str, str, str]:
    looks = [look_at(one, meant, rig) for one in cause.faults]
    says = cause_says(cause.faults, meant, rig)
    return odds_says(cause), says, "; ".join(dict.fromkeys(looks))


def _press(tick: Ticked, meant: Meant, rig: Rig) -> tuple[str, str, str, str]:
    said = "as meant" if tick.is_right else "differs" if tick.done else "not pressed"
    missing, more = ("; ".join(differences(keys, meant, rig)) for keys in (tick.missing, tick.more))
    return meant.steps[tick.step].title, said, missing, more


def audit_figures(found: Verdict, capture: Capture, *, meant: Meant, case: Case) -> list[Figure]:
    """Timing charts of the first presses that differ, computed pale and captured dark."""
    presets = [
        step.preset
        for one in found.ticks
        if one.done and not one.is_right and (step := meant.steps[one.step]).sweep is None
    ]
    drawn = [_drawn(capture, meant, case, preset) for preset in presets[:MOST_DRAWN]]
    return [one for one in drawn if one is not None]


def _drawn(capture: Capture, meant: Meant, case: Case, preset: int | None) -> Figure | None:
    if preset is None:
        return None
    try:
        chart = captured_chart(case, capture, meant, preset=preset, name=f"captured-{preset}")
    except CannotUse:  # nothing of it was heard: the table says so
        return None
    return Figure(
        title=f"Preset {chart.title}", says=chart.says, svg=chart.svg, sections=(_messages(chart),)
    )


def _messages(chart: Drawn) -> Section:
    rows = [
        [one[key] for key in ("says", "bytes", "computed", "captured", "off")] for one in chart.rows
    ]
    return Section(
        title=f"Messages of {chart.title}",
        table=table_of(("message", "bytes", "computed", "captured", ""), rows),
    )
