from thruline.midi.control_names import CONTROL_NAMES

# The numbers that the standard leaves free (MIDI Association, table of control changes).
FREE = {3, 9, *(14, 15), *range(20, 32), *(35, 41, 46, 47), *range(52, 64), *(85, 86, 87, 89, 90)}
FREE |= set(range(102, 120))


def test_every_number_has_a_name_or_is_free():
    assert set(CONTROL_NAMES) == set(range(128)) - FREE


def test_numbers_are_in_order():
    assert list(CONTROL_NAMES) == sorted(CONTROL_NAMES)


def test_a_fine_half_is_named_after_its_coarse_half():
    assert CONTROL_NAMES[32] == "bank select, fine half"
    assert CONTROL_NAMES[39] == "channel volume, fine half"
