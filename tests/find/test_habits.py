from thruline.find.habits import HABITS
from thruline.find.trials import Place, Trial


def test_every_kind_of_check_has_its_habit():
    assert set(HABITS) == set(Trial)
    for trial, habit in HABITS.items():
        assert len(habit.seconds) == len(Place)
        assert 0.5 < habit.sure < 1
        assert habit.seconds[0] is not None
        assert trial is Trial.GLANCE or len(habit.answers) >= 2


def test_what_can_hurt_says_so():
    for trial in (Trial.SUPPLY, Trial.LOAD, Trial.WHINE):
        assert "licensed practice" in HABITS[trial].caution
    for trial in (Trial.NOISE, Trial.LOOP, Trial.SOUND):
        assert "hearing" in HABITS[trial].caution
