"""A proof as a page to hand over: what stands, why, and how the presets that matter run."""

from collections.abc import Iterable, Iterator, Sequence

from thruline.app.mend import State, Step
from thruline.app.mending import uncovers
from thruline.app.trace import trace
from thruline.app.trace_paper import heading, trace_sections
from thruline.base.address import Address
from thruline.mend.named import named
from thruline.papers.colours import THEMED
from thruline.papers.paper import Figure
from thruline.papers.proof_words import counts_in_words
from thruline.papers.report import Card, Report, StepShown, report_html
from thruline.papers.timing_svg import timing_svg
from thruline.proof.finding import Finding
from thruline.proof.rulebook import rule_called
from thruline.rig.preset import Preset

MOST_FIGURES = 3
"""Timing charts on a page when nobody has chosen any."""


def report_page(
    state: State,
    *,
    presets: Sequence[int] = (),
    found: State | None = None,
    steps: Sequence[Step] = (),
) -> str:
    """The page about a state of a rig, as HTML.

    `presets` are the numbers of those whose timing charts are shown; without any, the ones that
    findings are about and the slowest. `found` is an earlier state, and `steps` the mends that led
    from there to this one. Raises CannotUse when a preset is not there or the rig has no
    controller.
    """
    opened = state.opened
    return report_html(
        Report(
            rig=opened.rig.name,
            about=" ".join(opened.rig.about.split()),
            file=file_name(opened.document.file),
            proof=state.proof,
            cards=tuple(_cards(state)),
            figures=tuple(_figures(state, presets or telling_presets(state))),
            found=counts_in_words(found.proof) if found else "",
            steps=tuple(map(_step, steps)),
        )
    )


def telling_presets(state: State) -> tuple[int, ...]:
    """The presets that the first findings are about, then the slowest; a few."""
    case = state.case
    if case.rig.controller is None or not case.rig.presets:
        return ()
    about = _presets_in(state, (one for finding in state.proof.findings for one in finding.where))
    slowest = max(case.rig.presets, key=lambda one: case.run(one).right_us)
    numbers = [*(one.number for one in about), slowest.number]
    return tuple(dict.fromkeys(numbers))[:MOST_FIGURES]


def _presets_in(state: State, where: Iterable[Address]) -> Iterator[Preset]:
    """The presets that addresses lie in."""
    known = {preset.address.steps[0]: preset for preset in state.case.rig.presets}
    return (known[address.steps[0]] for address in where if address.steps[0] in known)


def _cards(state: State) -> Iterator[Card]:
    """The findings, their mends named as the command line names them."""
    names = iter(named([mend for finding in state.proof.findings for mend in finding.mends]))
    for finding in state.proof.findings:
        mends = tuple((next(names), mend) for mend in finding.mends)
        rule = rule_called(finding.rule)
        yield Card(
            finding=finding,
            title=rule.title,
            why=rule.why,
            spot=_spot(state, finding),
            mends=mends,
        )


def _spot(state: State, finding: Finding) -> str:
    """Where it stands: the file by its name alone, for the page may travel."""
    spot = state.opened.document.spot_of(finding.where[0])
    return f"{file_name(spot.file)}:{spot.row}:{spot.column}"


def file_name(file: str) -> str:
    """A file without its folders."""
    return file.replace("\\", "/").rpartition("/")[2]


def _figures(state: State, presets: Iterable[int]) -> Iterator[Figure]:
    for number in presets:
        found = trace(state.case, number)
        yield Figure(
            title=f"Preset {found.preset.title}",
            says=heading(found),
            svg=timing_svg(found.picture, palette=THEMED, name=f"timing-{number}"),
            sections=tuple(trace_sections(found)),
        )


def _step(step: Step) -> StepShown:
    return StepShown(
        finding=step.done.finding.says,
        says=step.done.mend.says,
        is_safe=step.done.mend.is_safe,
        diff=tuple(_changed(step.diff)),
        brings=tuple(one.says for one in uncovers(step)),
        after=counts_in_words(step.after.proof),
    )


def _changed(diff: str) -> Iterator[str]:
    """The rows of a unified difference that say something."""
    for row in diff.splitlines()[2:]:
        if row.strip(" +-") and not row.startswith("@@"):
            yield row
