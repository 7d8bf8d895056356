"""The record of a search on one page: for a colleague who goes on with it, without the tool."""

from collections.abc import Iterator
from dataclasses import dataclass

from thruline.papers.paper import Paper, Section, table_of

ABOUT = "For whoever goes on with this: nothing else is needed to read it."
CAREFUL = (
    "Isolate before rewiring; never open a mains supply. Start quiet, and protect your hearing. "
    "Local codes and licensed practice come first."
)


@dataclass(frozen=True, slots=True)
class Tried:
    """One step in words: what was tried, what was seen, what it took, what that made unlikely."""

    asks: str
    answer: str
    takes: str
    ruled_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Left:
    """Something that may still be wrong: how likely it is, what it is, what would mend it."""

    likely: str
    says: str
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Next:
    """A check that would be made next, what it takes, and its caution."""

    asks: str
    takes: str
    caution: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A search in words. `rig` are sentences about it, `doubt` is empty where answers agree."""

    name: str
    rig: tuple[str, ...]
    said: tuple[str, ...]
    says: str
    tried: tuple[Tried, ...]
    left: tuple[Left, ...]
    after: tuple[Next, ...]
    spent: str
    doubt: str = ""


def search_record(told: Told) -> Paper:
    """The record as a paper."""
    return Paper(
        title=f"{told.name}: a search for the fault, so far",
        about=(f"{_begun(told.says)}.", ABOUT, CAREFUL),
        sections=tuple(_sections(told)),
    )


def _sections(told: Told) -> Iterator[Section]:
    yield Section(title="The rig", says=told.rig)
    said = told.said or ("Nothing was put into words.",)
    yield Section(title="What was complained of", says=said)
    yield Section(
        title="What was tried",
        says=() if told.tried else ("Nothing yet.",),
        table=table_of(("", "what", "seen", "takes", "speaks against"), _tried(told)),
        notes=(f"All of it took {told.spent}.",) if told.tried else (),
    )
    if told.doubt:
        yield Section(title="Answers that contradict each other", says=(f"{_begun(told.doubt)}.",))
    left = ((one.likely, one.says, one.mend) for one in told.left)
    yield Section(title="What is left", table=table_of(("", "what may be wrong", "mend"), left))
    after = ((f"{one.asks} {one.caution}".rstrip(), one.takes) for one in told.after)
    yield Section(
        title="What would be tried next",
        says=() if told.after else ("No further check tells these apart.",),
        table=table_of(("what", "takes"), after),
    )


def _begun(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def _tried(told: Told) -> Iterator[tuple[str, ...]]:
    for number, one in enumerate(told.tried, 1):
        yield str(number), one.asks, one.answer, one.takes, "; ".join(one.ruled_out)
