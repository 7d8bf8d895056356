from contextlib import suppress
from types import FunctionType

import pytest

from thruline.base.errors import CannotUse
from thruline.workbench.bench_deeds import DEEDS, Who, do


class Noted:
    """A bench that only notes what is asked of it."""

    def __init__(self):
        self.may_telephones_send = False
        self.turn = 0
        self.done = []

    def __getattr__(self, name):
        return lambda *words, **named: self.done.append((name, words, named))


def ask(bench, deed, *, is_here=True, **asked):
    return do(bench, None, deed=deed, asked=asked, is_here=is_here)


def test_what_opens_ports_allows_or_writes_memories_is_done_beside_the_board_only():
    found = {name for name, one in DEEDS.items() if one.who is Who.THIS_MACHINE}
    assert found == {"open", "close", "sound", "telephones", "save", "stop-saving", "restore"}
    for name in found:
        with pytest.raises(CannotUse, match="own machine only"):
            ask(Noted(), name, is_here=False)


def test_a_telephone_sends_when_it_was_allowed_and_not_before():
    bench = Noted()
    asked = {"sweep": "Swell", "place": 3}
    with pytest.raises(CannotUse, match="this device may not send"):
        ask(bench, "sweep", is_here=False, **asked)
    ask(bench, "telephones", may=True)
    ask(bench, "sweep", is_here=False, **asked)
    assert [name for name, _, _ in bench.done] == ["sweep"]


def test_anybody_may_stop_everything():
    bench = Noted()
    ask(bench, "panic", is_here=False)
    assert bench.done == [("panic", (None,), {})]


@pytest.mark.parametrize("name", sorted(set(DEEDS) - {"send", "step"}))
@pytest.mark.parametrize("word", [None, [], {}, True, "x", -1, 1e9])
def test_nonsense_is_refused_in_words(name, word):
    keys = ("inputs", "outputs", "down", "may", "preset", "so", "sweep", "place", "do", "unit")
    bench = Noted()
    with suppress(CannotUse):
        ask(bench, name, **dict.fromkeys((*keys, "name", "port", "confirmed"), word))
    kinds = {type(one) for _, words, named in bench.done for one in (*words, *named.values())}
    assert kinds <= {type(None), str, bool, int, list, FunctionType}


def test_what_is_unknown_is_named_with_what_there_is():
    with pytest.raises(CannotUse, match='no "shout" at the bench; there are open,'):
        ask(Noted(), "shout")
    with pytest.raises(CannotUse, match="nothing that is done with a pedal"):
        ask(Noted(), "pedal", do="kick")


def test_one_socket_is_not_listened_to_twice():
    lines = [{"port": "A", "line": "feet.out"}, {"port": "B", "line": "feet.out"}]
    with pytest.raises(CannotUse, match="two ports"):
        ask(Noted(), "open", inputs=lines, outputs=[])
