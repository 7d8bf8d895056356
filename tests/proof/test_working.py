"""Presets worked out: every control comes after its unit has loaded, whatever queues on the way."""

import pytest

from tests.proof.boards import case_of
from thruline.compose.jobs import Effort
from thruline.proof.example_boards import DELAY, DELAY_TO_REVERB, REVERB, TO_DELAY, a_preset, board
from thruline.proof.working import FULL_UP_TO, TOO_EARLY, effort_for, too_early
from thruline.timing.fate import Fate

GOALS = (
    'delay = { program = "2A", mix = 64, repeats = 30 }',
    "reverb = { program = 7, decay = 90, mix = 40 }",
)
RIG = board(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB, a_preset(1, "Overture", *GOALS))


def test_nothing_composed_comes_too_early() -> None:
    case = case_of(RIG)
    run = case.run(case.rig.presets[0])
    assert too_early(run) == {}
    for reception in run.receptions.values():
        assert all(fate.is_good for fate in reception.fates)


def test_stored_messages_may_come_too_early() -> None:
    stored = (
        'messages = ["3: control 0 = 0", "3: control 32 = 0", "3: program 6", "3: control 52 = 9"]'
    )
    case = case_of(board(DELAY, TO_DELAY, a_preset(1, "Overture", stored)))
    run = case.run(case.rig.presets[0])
    assert run.receptions["delay"].fates[-1] is Fate.LOST
    assert Fate.LOST in TOO_EARLY
    (missing,) = too_early(run).values()
    loaded = run.receptions["delay"].loading[0][1]
    assert missing == loaded - run.heard["delay"][-1].arrival.start_us


def test_effort_follows_from_the_size_of_the_rig() -> None:
    assert effort_for(case_of(RIG).rig) is Effort.FULL
    presets = [a_preset(n, f"Cue {n}", *GOALS) for n in range(1, FULL_UP_TO // 3 + 3)]
    large = case_of(board(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB, *presets)).rig
    assert effort_for(large) is Effort.QUICK


@pytest.mark.parametrize("wanted", ["mix = 64", "repeats = 3, mix = 1"])
def test_the_same_rig_gives_the_same_order(wanted: str) -> None:
    rig = board(DELAY, TO_DELAY, a_preset(1, "Overture", f'delay = {{ program = "2A", {wanted} }}'))
    one, other = case_of(rig), case_of(rig)
    assert one.composed(one.rig.presets[0]).sending == other.composed(other.rig.presets[0]).sending


def test_the_order_does_not_depend_on_two_units_sharing_a_channel() -> None:
    clash = board(
        DELAY, REVERB.replace("channel = 4", "channel = 3"), TO_DELAY, DELAY_TO_REVERB,
        a_preset(1, "Overture", *GOALS),
    )  # fmt: skip
    right, wrong = (
        [
            (item.unit, item.part, item.pause_us)
            for item in case.composed(case.rig.presets[0]).sending.items
        ]
        for case in (case_of(RIG), case_of(clash))
    )
    assert right == wrong
    assert len({unit.sent_on for unit in case_of(clash).rig.units.values()}) == 2
