"""A trace as sections of a paper: its sum, its messages, what it is compared with."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from thruline.app.trace import Best, Trace, Traced
from thruline.base.measures import BYTE_US, shown_ms
from thruline.compose.jobs import Proof
from thruline.papers.paper import Section, table_of
from thruline.papers.timing_words import headline
from thruline.timing.trail import Leg

_WHY: Mapping[Proof, str] = MappingProxyType(
    {
        Proof.BOUND_MET: "the messages and the loading times allow nothing shorter",
        Proof.SEARCHED_WHOLE: "every order was tried, or shown to be no better",
        Proof.SOLVER: "a solver found no faster order possible",
        Proof.ONLY_ORDER: "the controller leaves no choice",
        Proof.NOT_PROVED: "",
    }
)


def heading(found: Trace) -> str:
    """One sentence: which preset, when all is right, and why it cannot be sooner."""
    before = f", coming from {found.came_from.title}" if found.came_from else ""
    memory = " as the memory holds it" if found.is_stored else ""
    says = f"{found.preset.title}{memory}{before}: {headline(found.picture)}"
    why = _WHY[found.best.proof] if found.cannot_be_faster and found.is_done else ""
    return f"{says} ({why})" if why else says


def trace_sections(found: Trace, *, with_bytes: bool = False) -> Iterator[Section]:
    """What is not sent; the messages, and every hop of them if asked for; what is compared."""
    if found.not_sent:
        yield _not_sent(found)
    if found.messages:
        yield _messages(found)
        if with_bytes:
            yield _hops(found)
        yield _compared(found)
    if found.arriving or found.came_from:
        yield _arriving(found)


def _not_sent(found: Trace) -> Section:
    rows = [(f"not sent: {one.says}", one.why) for one in found.not_sent]
    return Section(title="What is not sent", table=table_of(("asked for", "why not"), rows))


def _messages(found: Trace) -> Section:
    pauses, outputs = any(one.item.pause_us for one in found.messages), found.chooses_output
    head = ["no", *(["pause"] if pauses else []), "leaves", *(["over"] if outputs else [])]
    head += ["arrives", "message"]
    head += ["entered" if found.is_stored else "enter", "bytes", "wanted", "wire"]
    head += ["shows", "becomes"]
    rows = [row for one in found.messages for row in _rows(one, pauses=pauses, outputs=outputs)]
    return Section(
        title="Messages, in the order in which they leave",
        table=table_of(head, rows),
        notes=("Times in ms after the press.", _enter_note(found)),
    )


def _enter_note(found: Trace) -> str:
    if found.is_stored:
        return (
            "entered: what the memory holds now, channel first, as the controller's screen counts."
        )
    return "enter: what to type, channel first, as the controller's screen counts."


def _rows(one: Traced, *, pauses: bool, outputs: bool) -> Iterator[list[str]]:
    """A message to the unit that it is for; one more row for each other way that it goes."""
    told = one.meaning
    for place, fall in enumerate(sorted(one.falls, key=lambda each: not each.for_it)):
        first = place == 0
        pause = _ms(one.item.pause_us) if one.item.pause_us and first else ""
        wanted = told.written if told.as_wanted is not False else f"{told.written} (!)"
        yield [
            str(one.number) if first else "",
            *([pause] if pauses else []),
            _ms(one.leaves_us) if first else "",
            *([", ".join(one.over) if first else ""] if outputs else []),
            _ms(fall.points[-1].us) if fall.end.fate else "",
            told.says if first else "also",
            one.entry.brief if first else "",
            one.item.data.hex(" ").upper() if first else "",
            wanted if first else "",
            "" if told.wire is None or not first else str(told.wire),
            told.shown if first else "",
            fall.end.says if fall.for_it else f"{fall.unit}: {fall.end.says}, not meant for it",
        ]


def _hops(found: Trace) -> Section:
    rows = [_hop(one, leg) for one in found.messages for fall in one.falls for leg in fall.legs]
    return Section(
        title="On the wire, hop by hop",
        table=table_of(("no", "from", "to", "waits from", "begins", "each byte ends at"), rows),
        notes=(
            f"A byte takes {BYTE_US} microseconds. Times in ms after the press.",
            "A byte in brackets is a status that running status leaves out.",
        ),
    )


def _hop(one: Traced, leg: Leg) -> list[str]:
    data = [f"{byte:02X}" for byte in one.item.data]
    left_out = f"({data.pop(0)}) " if leg.status_left_out else ""
    ends = ", ".join(f"{byte} {_ms(end)}" for byte, end in zip(data, leg.byte_end_us, strict=True))
    return [
        str(one.number),
        str(leg.link.start),
        str(leg.link.stop),
        "" if leg.queued_us is None else _ms(leg.queued_us),
        _ms(leg.start_us),
        left_out + ends,
    ]


def _compared(found: Trace) -> Section:
    """What plain orders and the best one would take."""
    rows = [("these messages", _right(found.right_us, len(found.picture.failed)), _bound(found))]
    if found.is_stored:
        rows.append(("the same goals in the best order", shown_ms(found.best.right_us), ""))
    rows += [(one.says, _right(one.right_us, one.lost), "") for one in found.baselines]
    return Section(title="Compared", table=table_of(("order", "all right at", ""), rows))


def _right(right_us: int, lost: int) -> str:
    return f"{shown_ms(right_us)}, {lost} not obeyed" if lost else shown_ms(right_us)


def _bound(found: Trace) -> str:
    if found.cannot_be_faster:
        return "cannot be faster"
    return _gap(found.best)


def _gap(best: Best) -> str:
    if best.least_us is None:
        return "no bound: some unit hears nothing"
    missing = "; the solver that could prove more is not installed" if best.solver_missing else ""
    return f"no order can be below {shown_ms(best.least_us)}{missing}"


def _arriving(found: Trace) -> Section:
    title = "What depends on where one comes from"
    if not found.arriving:
        return Section(title=title, says=("Nothing: this preset always ends in the same state.",))
    rows = [(one.unit, one.name, one.says) for one in found.arriving]
    return Section(title=title, table=table_of(("unit", "control", "it is then"), rows))


def _ms(us: int) -> str:
    """Exact milliseconds: `12.345`."""
    return f"{us // 1000}.{us % 1000:03}"
