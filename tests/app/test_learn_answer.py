import json

from tests.app.test_learn import made_of
from thruline.app.learn_answer import learn_json, learn_rows
from thruline.app.learn_said import Said

MADE = made_of(Said())


def test_the_same_for_people_and_for_programs():
    rows = "\n".join(learn_rows(MADE, file="new.rig.toml"))
    told = json.loads(json.dumps(learn_json(MADE, file="new.rig.toml")))
    assert "24 presets from 72 presses, 3 sweeps, 9 channels" in rows
    assert (len(told["presets"]), len(told["sweeps"]), len(told["channels"])) == (24, 3, 9)
    assert told["placed"] / told["heard"] > 0.97
    assert f"{told['placed']} of {told['heard']} messages" in rows
    assert "UNKNOWN  how the units are joined" in rows or "more; each stands" in rows
    assert len(told["unknown"]) == len(MADE.unknown)
    curves = {move["curve"] for sweep in told["sweeps"] for move in sweep["moves"]}
    assert curves == {"late", "s", "linear"}
