"""Plans for a page: worked out for the rig on the desk, shown as edits, applied as they were shown.

Nothing is changed by looking at a plan. Whoever applies one sends back the edits that were shown
and the revision they were worked out for; on any other revision they are refused.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from thruline.app import desk as desks
from thruline.app.answer import edit_json
from thruline.app.clash import shown, value_at
from thruline.app.desk import Desk, Keeping
from thruline.app.edit_words import edits_in_words
from thruline.app.frame import Json
from thruline.app.load import Opened
from thruline.app.plan_cables import (
    CAUTION,
    SPOOL,
    CableSet,
    Stock,
    cable_sections,
    plan_rig_cables,
)
from thruline.app.plan_channels import (
    AGAIN,
    ChannelPlan,
    channel_sections,
    plan_rig_channels,
    read_pinned,
)
from thruline.app.plan_power import (
    CAUTIONS,
    OutletPlan,
    plan_rig_power,
    power_cost_section,
    power_sections,
)
from thruline.app.planned import Tried, tried_words
from thruline.base.edit import Edit, EditKind
from thruline.base.errors import CannotUse
from thruline.papers.paper import Section
from thruline.plan.cable_kinds import KINDS
from thruline.plan.cables import Wish

Asked = Mapping[str, str]
SLACKS = range(101)
"""Percent."""
SPOOLS = range(1, 100_001)
"""Mm."""
YES = "yes"
IN_A_PAGE = {
    AGAIN: "Presets that use a unit on another channel have to be entered again: the programming "
    "sheet of the Book lists what to enter."
}
"""Where a note names a command: what whoever sits at a page does."""
NOTHING_TO_CHOOSE = "Nothing is to be cut, so there is nothing to choose between."


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Whether a plan is proved to be the best, and the gap where it is not; in a sentence.

    `proved` is None where there is no plan, or nothing to choose between.
    """

    proved: bool | None
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A plan as a page shows it. `clash` names the units that leave no room for a plan."""

    says: str
    is_whole: bool
    verdict: Verdict
    sections: tuple[Section, ...]
    cautions: tuple[str, ...]
    tried: Tried
    clash: tuple[str, ...] = ()


def plan_json(opened: Opened, asked: Asked) -> Json:
    """A plan, by its word and what is wished of it, all as texts.

    `{"plan": "channels", "set": "delay=3 reverb=5"}`;
    `{"plan": "power", "chains": "no", "anywhere": "yes"}`;
    `{"plan": "cables", "slack": "10", "remake": "yes", "sold": "yes", "spool": "3000"}`, mm.
    Raises CannotUse for another word, and for a wish that makes no sense.
    """
    name = asked.get("plan", "")
    one = _plan_called(name)(opened, asked)
    return {
        "plan": name,
        "says": one.says,
        "whole": one.is_whole,
        "proved": one.verdict.proved,
        "verdict": one.verdict.says,
        "clash": list(one.clash),
        "cautions": list(one.cautions),
        "changes": list(_changes(one.tried)),
        "edits": [edit_json(edit) for edit in one.tried.edits],
        "diff": one.tried.diff.splitlines()[2:],
        "effect": tried_words(one.tried),
        "gone": [finding.says for finding in one.tried.effect.gone],
        "new": [finding.says for finding in one.tried.effect.new],
        "sections": [_section(section) for section in one.sections],
    }


def applied(desk: Desk, keeping: Keeping, name: str, *, edits: Sequence[Edit], seen: int) -> Desk:
    """The desk with the edits of a plan made, as one step.

    Raises CannotUse when the rig is no longer the one that was planned for: what was the best for
    that need not be good for this.
    """
    _plan_called(name)
    desk = desks.caught_up(desk, keeping)
    if desk.history.now != seen:
        raise CannotUse(
            "the rig was changed since this plan was worked out; have it worked out again"
        )
    says = f"Plan of {name}: {edits_in_words(edits, desk.state.opened.document.data)}"
    return desks.edited(desk, edits, keeping, says=says, seen=seen)


def _plan_called(name: str) -> Callable[[Opened, Asked], Shown]:
    if name not in PLANS:
        raise CannotUse(f'there is no plan "{name}"; there are {", ".join(PLANS)}')
    return PLANS[name]


def _changes(tried: Tried) -> Iterator[Json]:
    """Every edit with where it is, what stands there now, what shall, and why."""
    document = tried.before.opened.document
    for edit, why in zip(tried.edits, tried.whys, strict=True):
        is_added = edit.kind is EditKind.ADD
        was = None if is_added else value_at(document.data, edit.address)
        yield {
            "do": edit.kind.value,
            "address": str(edit.address),
            "row": None if is_added else document.spot_of(edit.address).row,
            "was": "nothing" if was is None else shown(was),
            "becomes": "nothing" if edit.value is None else shown(edit.value),
            "why": why,
        }


def _section(section: Section) -> Json:
    return {
        "title": section.title,
        "says": list(section.says),
        "head": list(section.table.head) if section.table else [],
        "rows": [list(row) for row in section.table.rows] if section.table else [],
        "notes": list(section.notes),
    }


def _channels(opened: Opened, asked: Asked) -> Shown:
    words = asked.get("set", "").replace(",", " ").split()
    found = plan_rig_channels(opened, dict(read_pinned(one) for one in words))
    units = opened.rig.units
    return Shown(
        says=found.says,
        is_whole=found.plan is not None,
        verdict=_channel_verdict(found),
        sections=tuple(
            replace(one, notes=tuple(IN_A_PAGE.get(note, note) for note in one.notes))
            for one in channel_sections(found)
        ),
        cautions=(),
        tried=found.tried,
        clash=tuple(f"{units[one].name} ({one})" for one in found.clash.units)
        if found.clash
        else (),
    )


def _channel_verdict(found: ChannelPlan) -> Verdict:
    if found.plan is None:
        return Verdict(proved=None, says="There is no plan while these units clash.")
    return _cost_verdict(found.plan.cost, found.plan.bound)


def _power(opened: Opened, asked: Asked) -> Shown:
    chains, anywhere = asked.get("chains", YES) == YES, asked.get("anywhere") == YES
    found: OutletPlan = plan_rig_power(opened, chains=chains, anywhere=anywhere)
    return Shown(
        says=found.says,
        is_whole=found.is_whole,
        verdict=_cost_verdict(found.plan.cost, found.plan.bound),
        sections=(*_for_a_page(power_sections(found)), power_cost_section(found)),
        cautions=CAUTIONS,
        tried=found.tried,
    )


def _cost_verdict(cost: int, bound: int) -> Verdict:
    if bound >= cost:
        return Verdict(proved=True, says=f"Proved: it costs {cost}, and no plan costs less.")
    return Verdict(
        proved=False,
        says=f"Not proved: it costs {cost}, and no plan costs less than {bound}; the gap is "
        f"{cost - bound}.",
    )


def _cables(opened: Opened, asked: Asked) -> Shown:
    wish = Wish(
        slack=_number(asked, "slack", usual=10, span=SLACKS),
        remake=asked.get("remake") == YES,
        sold=asked.get("sold") == YES,
    )
    spool = _number(asked, "spool", usual=SPOOL, span=SPOOLS)
    stock = Stock(spools={kind.name: spool for kind in KINDS}, rests={})
    found = plan_rig_cables(opened, wish, stock)
    return Shown(
        says=found.says,
        is_whole=found.is_whole,
        verdict=_cut_verdict(found),
        sections=_for_a_page(cable_sections(found)),
        cautions=(CAUTION,),
        tried=found.tried,
    )


def _cut_verdict(found: CableSet) -> Verdict:
    """Whether the cables can be cut from fewer spools, over all kinds."""
    if not found.cuts:
        return Verdict(proved=None, says=NOTHING_TO_CHOOSE)
    spools = sum(one.cutting.spools for one in found.cuts)
    bound = sum(min(one.cutting.bound, one.cutting.spools) for one in found.cuts)
    begun = "one spool is begun" if spools == 1 else f"{spools} spools are begun"
    if all(one.cutting.is_best for one in found.cuts):
        return Verdict(proved=True, says=f"Proved: {begun}, and fewer cannot do.")
    gap = f"Not proved: {begun}, and fewer than {bound} cannot do; the gap is {spools - bound}."
    return Verdict(proved=False, says=gap)


def _for_a_page(sections: Iterator[Section]) -> tuple[Section, ...]:
    """Cautions stand above all on a page already; what is to be bought or cut comes first."""
    told = [one for one in sections if one.title != "Cautions"]
    return tuple(sorted(told, key=lambda one: not one.title.startswith(("To buy", "To cut"))))


def _number(asked: Asked, key: str, *, usual: int, span: range) -> int:
    text = asked.get(key, "").strip()
    if not text:
        return usual
    if not text.isascii() or not text.isdigit() or len(text) > 9 or int(text) not in span:
        raise CannotUse(f'{key} "{text}" is no number from {span[0]} to {span[-1]}')
    return int(text)


PLANS: Mapping[str, Callable[[Opened, Asked], Shown]] = MappingProxyType(
    {"channels": _channels, "power": _power, "cables": _cables}
)
"""Every plan by its word."""
