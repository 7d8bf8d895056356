import json

from tests.find.boards import field, played, suspect
from thruline.app.locate import Search, stand
from thruline.app.locate_answer import MOST_SUSPECTS, standing_json
from thruline.find.kinds import Kind
from thruline.find.search import search_from_data


def test_a_search_as_other_programs_see_it():
    told = standing_json(stand(field(), Search()))
    assert json.loads(json.dumps(told)) == told
    assert told["state"] == "check"
    assert told["check"]["id"] == "glance 1"
    assert told["check"]["units"] == ["box-1", "box-2", "box-3"]
    assert len(told["suspects"]) == MOST_SUSPECTS
    assert told["mend"] is None
    assert told["seconds_left"] > 0


def test_a_mend_comes_with_its_reasons_and_the_search_can_be_played_again():
    search = played(suspect(Kind.NO_POWER, "box-2"))
    place = next(n for n, step in enumerate(search.steps) if step.did == "mended")
    told = standing_json(stand(field(), Search(steps=search.steps[:place])))
    assert told["mend"]["on"] == "box-2"
    assert told["mend"]["because"]
    assert told["confirm"]["asks"].startswith("Press")
    assert search_from_data(told["search"]) == Search(steps=search.steps[:place])
    assert len(told["record"]) == place + 1
