from dataclasses import replace

from tests.papers.pictures import picture
from thruline.papers.timing_words import bar_words, end_word, fall_words, headline, sentences
from thruline.rig.chart import Meanwhile
from thruline.timing.picture import Least


def test_all_is_right():
    assert headline(picture(1)) == "all right at 26.6 ms"


def test_it_cannot_be_faster():
    assert headline(picture(1, least=Least(26_600, proved=True))).endswith("— cannot be faster")


def test_it_might_be_faster():
    said = headline(picture(1, least=Least(25_000, proved=False)))
    assert said.endswith("— no order can be below 25.0 ms")


def test_what_is_not_obeyed_comes_first():
    said = headline(picture(2, pause_ms=0, controls=2))
    assert said == "4 messages are not obeyed; the rest is right at 21.9 ms"


def test_neighbours_that_obey_are_counted():
    assert "obeyed by a unit that they are not meant for" in headline(picture(17, controls=0))


def test_nothing_is_sent():
    assert headline(picture(1, controls=0, title="")).startswith("all right")


def test_every_way_of_loading_has_words():
    assert len({bar_words(one) for one in (*Meanwhile, None)}) == 4


def test_one_message_on_its_way():
    found = picture(2)
    assert fall_words(found, found.falls[1]) == (
        "2. C1 00: leaves at 0.64 ms, at Egremont at 1.92 ms: obeyed"
    )
    assert end_word(found.falls[1]) == "obeyed"


def test_the_alternative_tells_everything():
    found = picture(3, loop="in")
    told = " ".join(sentences(found))
    for row in found.rows:
        assert row.name in told
    for message in found.messages:
        assert message.says in told
    assert told.count(" loading") == len(found.bars)


def test_the_alternative_tells_what_is_cut_off():
    told = " ".join(sentences(picture(3, way="own")))
    assert "Egremont hears nothing: Braeburn MIDI OUT passes nothing on." in told


def test_what_is_not_sent_is_never_all_right():
    found = replace(picture(1), not_sent=("Cox: Mix 200: 200 is outside 0 to 127",))
    assert headline(found) == "1 thing asked for NOT SENT; the rest is right at 26.6 ms"
    assert "Not sent: Cox: Mix 200" in " ".join(sentences(found))
    silent = replace(found, messages=(), falls=())
    assert headline(silent) == "nothing is sent over MIDI; 1 thing asked for NOT SENT"
