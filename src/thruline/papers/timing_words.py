"""The timing chart in words: its sum, the legend, and all of it for those who cannot see it."""

from collections.abc import Iterator

from thruline.base.measures import shown_ms
from thruline.rig.chart import Meanwhile
from thruline.timing.falls import Fall
from thruline.timing.picture import Bar, Picture

LEGEND = (
    "Every row is a unit, in the order in which MIDI reaches it; time runs to the right. Each line "
    "that falls is one message on its way to the unit that it is for, numbered as it leaves and in "
    "the colour of that unit's core: steep where it is copied electrically, slanted where a unit "
    "stores it and sends it on."
)


def headline(picture: Picture) -> str:
    """The picture in one row: the moment from which all is right, or else what goes wrong."""
    missing = _amiss(picture)
    if not picture.messages:
        return "; ".join(["nothing is sent over MIDI", *missing])
    if missing:
        right = f"; the rest is right at {shown_ms(picture.right_us)}" if picture.right_us else ""
        return ", ".join(missing) + right
    told = f"all right at {shown_ms(picture.right_us)}"
    strays = len({fall.message for fall in picture.strays})
    if strays:
        count = f"{strays} message{'s are' if strays > 1 else ' is'}"
        return f"{told}, but {count} obeyed by a unit that they are not meant for"
    untold = len({fall.message for fall in picture.untold})
    if untold:
        return f"{told}, as far as can be told ({untold} cannot)"
    least = picture.least
    if least is None:
        return told
    if least.proved:
        return f"{told} — cannot be faster"
    return f"{told} — no order can be below {shown_ms(least.us)}"


def _amiss(picture: Picture) -> list[str]:
    """How much is not sent, and how much of what is sent is not obeyed."""
    unsent, failed = len(picture.not_sent), len({fall.message for fall in picture.failed})
    words = [f"{unsent} thing{'s' if unsent > 1 else ''} asked for NOT SENT"] if unsent else []
    if failed:
        words.append(f"{failed} message{'s are' if failed > 1 else ' is'} not obeyed")
    return words


def bar_words(meanwhile: Meanwhile | None) -> str:
    """What a loading unit does with control changes."""
    match meanwhile:
        case Meanwhile.LOST:
            return "loading, deaf to control changes"
        case Meanwhile.HELD:
            return "loading, keeps control changes for later"
        case Meanwhile.OBEYED:
            return "loading, still obeys"
        case None:
            return "loading; whether it listens is not known"


def end_word(fall: Fall) -> str:
    """One or two words at the end of a fall: what its sentence begins with."""
    return fall.end.says.partition(":")[0]


def fall_words(picture: Picture, fall: Fall) -> str:
    """One message on its way: `3, Bramley Delay: Mix 50 %: leaves at ..., arrives at ...`."""
    message = picture.messages[fall.message]
    leaves = f"{fall.message + 1}. {message.says}: leaves at {shown_ms(message.leaves_us)}"
    last = fall.points[-1]
    name = picture.rows[last.row].name
    reached = f", at {name} at {shown_ms(last.us)}" if len(fall.points) > 1 else ""
    stray = "" if fall.for_it else " (not meant for it)"
    return f"{leaves}{reached}{stray}: {fall.end.says}"


def bar_sentence(picture: Picture, bar: Bar) -> str:
    """One span of loading."""
    span = f"{shown_ms(bar.start_us)} to {shown_ms(bar.end_us)}"
    return f"{picture.rows[bar.row].name}: {bar_words(bar.meanwhile)}, {span}"


def sentences(picture: Picture) -> Iterator[str]:
    """Everything that the picture shows."""
    yield f"{picture.title}: {headline(picture)}." if picture.title else f"{headline(picture)}."
    for says in picture.not_sent:
        yield f"Not sent: {says}."
    names = ", ".join(row.name for row in picture.rows if not row.silent)
    yield f"Units in the order in which MIDI reaches them: {names}."
    for row in picture.rows:
        if row.silent:
            yield f"{row.name} hears nothing: {row.silent}."
        if row.state:
            yield f"{row.name}: {row.about}, put {row.state} at the press."
    for fall in picture.falls:
        yield f"{fall_words(picture, fall)}."
    for bar in picture.bars:
        yield f"{bar_sentence(picture, bar)}."
    for row in picture.rows:
        if row.right_us is not None:
            yield f"{row.name} is right at {shown_ms(row.right_us)}."
