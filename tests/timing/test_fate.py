from thruline.timing.fate import Fate


def test_what_is_good_did_does_or_will_do_what_it_says():
    assert [fate.value for fate in Fate if fate.is_good] == ["obeyed", "prepares", "held"]
