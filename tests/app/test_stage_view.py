from tests.app.keeping import BOARD
from tests.opening import open_text
from thruline.app.stage_view import stage_json

SONG = '[[song]]\nname = "Lantern"\ntempo = 96\npresets = [2, 1, 9]\n'


def test_songs_come_in_their_order_and_a_missing_preset_is_told():
    told = stage_json(
        open_text(BOARD.replace('name = "Lead"', 'name = "Lead"\nabout = "Loud"') + SONG)
    )
    assert [(one["name"], one["tempo"]) for one in told["songs"]] == [("Lantern", 96)]
    steps = told["songs"][0]["steps"]
    assert [(one["number"], one["missing"]) for one in steps] == [(2, False), (1, False), (9, True)]
    assert steps[0]["about"] == "Loud"


def test_without_songs_all_presets_are_one_list():
    assert [one["number"] for one in stage_json(open_text(BOARD))["songs"][0]["steps"]] == [1, 2]
    assert stage_json(open_text(BOARD.partition("[[preset]]")[0]))["songs"] == []
