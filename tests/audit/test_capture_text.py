from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.audit.capture import Came, Capture, Note, NoteKind, caught
from thruline.audit.capture_text import FIRST, entry_row, read_capture, read_row, write_capture
from thruline.base.errors import CannotUse

texts = st.text(alphabet="abc XYZ 12:é", max_size=20).map(lambda one: " ".join(one.split()))
LINES = ("Port A", "Port B")


def entry(at):
    came = st.builds(
        Came, st.just(at), st.integers(1, len(LINES)), st.binary(min_size=1, max_size=20)
    )
    note = st.builds(
        Note, st.just(at), st.integers(0, len(LINES)), st.sampled_from(NoteKind), texts
    )
    return came | note


entries = (
    st.lists(st.integers(0, 10**12), max_size=20)
    .map(sorted)
    .flatmap(lambda times: st.tuples(*map(entry, times)))
)


@given(entries, texts)
def test_what_is_written_is_read_again(found, began):
    capture = Capture(lines=LINES, entries=found, began=began)
    assert read_capture(write_capture(capture)) == capture


@given(entries.filter(bool), st.data())
def test_a_power_cut_takes_the_last_row_at_most(found, data):
    text = write_capture(Capture(lines=LINES, entries=found))
    start = len(text) - len(entry_row(found[-1])) - 1
    cut = data.draw(st.integers(start, len(text) - 1))
    assert read_capture(text[:cut]).entries == found[:-1]


HEAD = f"{FIRST}\nline 1 Port A\n"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "this is no capture"),
        ("hello\n", "this is no capture"),
        (f"{HEAD}0 1 C2 5\n", "row 3: .* neither bytes"),
        (f"{HEAD}soon\n", "row 3: .*no row of a capture"),
        (f"{HEAD}0 0 C2\n", "row 3: there is no line 0; .* 1"),
        (f"{FIRST}\nline 0 Port A\n", "row 2: .*no row of a capture"),
        (f"{HEAD}0 2 C2\n", "row 3: there is no line 2; .* 1"),
        (f"{HEAD}10 1 C2\n9 1 05\n", "row 4: 9 comes before 10"),
    ],
)
def test_what_is_no_capture(text, says):
    with pytest.raises(CannotUse, match=says):
        read_capture(text)


@given(st.text(max_size=200))
def test_nothing_else_goes_wrong(text):
    for what in (read_capture, read_row):
        with suppress(CannotUse):
            what(text)


def test_a_person_may_edit_it():
    assert read_capture(f"{HEAD}\n# louder here\r\n  0 1 c2 05  \n").entries == (
        Came(0, 1, b"\xc2\x05"),
    )


@given(entries.filter(bool), st.data())
def test_damage_anywhere_is_told_or_read_to_the_end(found, data):
    text = write_capture(Capture(lines=LINES, entries=found))
    place = data.draw(st.integers(0, len(text) - 1))
    length = data.draw(st.integers(0, 20))
    inside = data.draw(st.text(alphabet="0123456789ABCDEF \n#lineprs²٣\0", max_size=20))
    with suppress(CannotUse):
        capture = read_capture(text[:place] + inside + text[place + length :])
        for one in caught(capture):
            assert isinstance(one, Note) or 1 <= one.line <= len(capture.lines)
