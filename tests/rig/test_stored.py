import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.rig.preset import StoredControl, StoredPause, StoredProgram, StoredRaw
from thruline.rig.stored import EXAMPLE, read_stored, why_not, write_stored


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("3: program 24", StoredProgram(3, 24, 23)),
        ("16 : Program  128", StoredProgram(16, 128, 127)),
        ("3: control 14 = 64", StoredControl(3, 14, 64)),
        ("3:control 14=64", StoredControl(3, 14, 64)),
        ("wait 40 ms", StoredPause(40)),
        ("bytes f0 7d 01 F7", StoredRaw((0xF0, 0x7D, 0x01, 0xF7))),
        ("3: program 24 over midi-out-2", StoredProgram(3, 24, 23, "midi-out-2")),
        ("3: control 14 = 64  Over OUT", StoredControl(3, 14, 64, "out")),
        ("bytes f8 over usb", StoredRaw((0xF8,), "usb")),
    ],
)
def test_messages_in_words(text, message):
    assert read_stored(text, programs_from=1) == message


@pytest.mark.parametrize(
    "text",
    [
        "", "hello", "wait 40 ms over midi-out-2", "3: program 24 over", "over midi-out-2",
        "0: program 1", "17: program 1", "3: program 0", "3: program 129",
        "3: control 128 = 0", "3: control 1 = 128", "3: control 1", "wait", "wait -1 ms",
        "bytes", "bytes 7D 01", "bytes F", "bytes F0 7", "3: program 1 4: program 1",
        "bytes C2", "bytes B2 0E", "bytes B2 0E 90", "bytes B2 0E 40 0F", "bytes F0 7D", "bytes F4",
    ],
)  # fmt: skip
def test_words_that_are_no_message(text):
    assert read_stored(text, programs_from=1) is None


def test_the_examples_are_messages():
    examples = EXAMPLE.replace(" or ", ", ").split('"')[1::2]
    assert len(examples) == 4
    assert all(read_stored(text, programs_from=0) for text in examples)


channels = st.integers(1, 16)
sevens = st.integers(0, 127)
bases = st.sampled_from([0, 1])
outputs = st.sampled_from(["", "midi-out-2", "usb"])


@st.composite
def messages(draw, base):
    program = draw(sevens)
    return draw(
        st.one_of(
            st.builds(
                StoredProgram,
                channel=channels,
                shown=st.just(program + base),
                wire=st.just(program),
                over=outputs,
            ),
            st.builds(StoredControl, channel=channels, number=sevens, value=sevens, over=outputs),
            st.builds(StoredPause, ms=st.integers(0, 99_999)),
            st.lists(sevens, max_size=12).map(lambda data: StoredRaw((0xF0, *data, 0xF7))),
            st.builds(lambda *data: StoredRaw(data), st.integers(0x80, 0xBF), sevens, sevens),
        )
    )


@given(st.data(), bases)
def test_reading_is_the_inverse_of_writing(data, base):
    message = data.draw(messages(base))
    assert read_stored(write_stored(message), programs_from=base) == message


@given(st.text(max_size=40), bases)
def test_no_text_is_too_odd(text, base):
    message = read_stored(text, programs_from=base)
    if message is not None:
        assert read_stored(write_stored(message), programs_from=base) == message


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("17: program 2", "there is no channel 17: they run from 1 to 16"),
        ("4: program 129", "there is no program 129: this screen counts from 1 to 128"),
        ("4: control 200 = 5", "they run from 0 to 119 (120 to 127 are channel mode messages)"),
        ("4: control 20 = 500", "there is no value 500"),
        ("wait 40", 'the measure is missing: write "wait 40 ms"'),
        ("louder", "one reads"),
    ],
)
def test_what_is_no_message_is_told_why(text: str, says: str) -> None:
    assert read_stored(text, programs_from=1) is None
    assert says in why_not(text, programs_from=1)
