from tests.audit.boards import board, plan
from thruline.audit.build import key_of
from thruline.audit.fault import Family, Fault
from thruline.audit.listed import every_fault
from thruline.audit.words import fault_says, look_at, words_for_keys

MEANT, RIG = plan(), board()


def test_every_mistake_has_its_own_words_and_a_place_to_look():
    every = [*every_fault(MEANT), Fault(Family.NUMBER, 0, 20, 77)]
    says = [fault_says(one, MEANT, RIG) for one in every]
    assert len(set(says)) == len(says)
    assert all(look_at(one, MEANT, RIG) for one in every)


def test_some_of_them():
    assert fault_says(Fault(Family.NUMBER, 0, 20, 77), MEANT, RIG) == (
        "Mix of Orchard X is sent as control 77, not 20"
    )
    assert fault_says(Fault(Family.CHANNEL, 0, 8), MEANT, RIG) == (
        "Orchard X is addressed on channel 9, not 2"
    )


def test_a_message_in_words():
    def says(kind, first, second, travel=0):
        key = key_of(0, 1, travel=travel, kind=kind, channel=1, numbers=(first, second))
        return words_for_keys(MEANT, RIG)(key)

    assert says(0xC, 5, 0) == "Orchard X: program change 5 at c.midi-out"
    assert says(0xB, 20, 64) == "Orchard X: Mix = 64 (control 20) at c.midi-out"
    assert says(0xB, 0, 1) == "Orchard X: bank select 1 (control 0) at c.midi-out"
    assert says(0xB, 40, 10 << 7 | 100, 1) == "Orchard X: Level from 10 to 100 at c.midi-out"
    assert says(0x9, 40, 10) == "Orchard X: note on at c.midi-out"
    key = key_of(0, 1, travel=0, kind=0xF, channel=0, numbers=(0, 0))
    assert words_for_keys(MEANT, RIG)(key) == "system exclusive at c.midi-out"
