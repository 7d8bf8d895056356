import tomllib

import pytest

from tests.learn.boards import DAMAGED, heard, meant
from thruline.app.learn import learn_captures, learned_rig, units_said
from thruline.app.learn_said import Said, SaidUnit
from thruline.app.load import open_rig
from thruline.audit.capture import Capture
from thruline.base.errors import CannotUse
from thruline.outside.shelves import sample_shelf
from thruline.proof.case import Case
from thruline.proof.finding import Severity
from thruline.wiring import demo_texts

SHELVES = (sample_shelf(),)
LEARNED = learn_captures([heard(3, DAMAGED)], {})


def bare_board():
    """The demonstration rig with everything that a person can see, and nothing that is sent."""
    text = demo_texts()[1]
    head, tail = text.index("# --- presets:"), text.index("# --- what we live with")
    return open_rig(text[:head] + text[tail:], file="bare.rig.toml", shelves=SHELVES)


def made_of(said, board=None, learned=LEARNED):
    return learned_rig(learned, said, board=board, shelves=SHELVES, file="new.rig.toml")


def test_a_board_that_is_known_but_for_its_memory_is_learned_whole():
    made = made_of(Said(pedals={"Volume": "exp-2"}), bare_board())
    assert made.charts == {}
    assert made.proof.count(Severity.FAULT) == 0
    case, really = Case(made.opened.rig), meant().case
    for preset in really.rig.presets:
        mine = case.run(case.rig.preset(preset.number)).sending.items
        theirs = really.run(preset).sending.items
        assert [(one.data, one.pause_us) for one in mine] == [
            (one.data, one.pause_us) for one in theirs
        ]
    moves = {(one.name, len(one.moves)) for one in case.rig.sweeps}
    assert moves == {(one.name, len(one.moves)) for one in really.rig.sweeps}


def test_with_nobody_to_ask_charts_are_begun_and_the_rest_is_marked():
    made = made_of(Said())
    assert len(made.charts) == 10
    assert made.text.count("# unknown:") >= len({str(one.where) for one in made.unknown})
    assert tomllib.loads(made.text)["rig"]["controller"] == "feet"
    says = " ".join(one.says for one in made.unknown)
    for part in ("how the units are joined", "which controller this is", "which unit this is"):
        assert part in says
    assert made.proof.untold


def test_what_a_person_says_is_used():
    said = Said(
        name="Pit",
        controller="braeburn-six",
        units={3: SaidUnit("delay", "bramley-delay"), 5: SaidUnit("hall", None)},
        presets={7: "Balcony"},
    )
    made = made_of(said)
    rig = made.opened.rig
    assert rig.name == "Pit"
    assert rig.units["delay"].chart.id == "bramley-delay"
    assert set(made.charts) >= {"learned-hall", "learned-unit-2"}
    assert "learned-controller" not in made.charts
    assert rig.preset(7).name == "Balcony"
    assert rig.preset(7).goal_for("delay").program.label == "11B"


def test_units_are_known_by_the_channel_they_are_addressed_on():
    units = units_said(Said(units={12: SaidUnit("more", "pippin-reverb")}), bare_board(), SHELVES)
    assert units[3].chart.id == "bramley-delay"
    assert units[12].chart.id == "pippin-reverb"
    with pytest.raises(CannotUse, match='did you mean "bramley-delay"'):
        units_said(Said(units={3: SaidUnit("delay", "bramley-dela")}), None, SHELVES)


def test_silence_teaches_nothing():
    with pytest.raises(CannotUse, match="is the right port listened to"):
        learn_captures([Capture(lines=("a",), entries=())], {})
