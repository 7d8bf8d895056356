"""Work orders for controllers that choose an output for each message, or for each unit."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.opening import open_text
from tests.routed import BOTH, SAME_CHANNEL, TO_ECHO, two_lines
from thruline.app.compare import compare
from thruline.app.compare_words import details, task_words
from thruline.compare.work import Kind
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_preset, a_sweep, a_unit, board

MERGED = (
    a_unit("merge", "kidd-merge"),
    a_cable("feet.midi-out-1", "merge.in-1"),
    a_cable("feet.midi-out-2", "merge.in-2"),
    a_cable("merge.output", "delay.midi-in"),
)
"""Both outputs lead to the delay, so that the document chooses."""
SWELL = a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = "80%"')
PRESET = a_preset(1, "One", 'delay = { program = "11B", mix = 40 }')


def merged(over, *more, controller):
    delay = a_unit("delay", "bramley-delay", "channel = 3", f'sent-over = "midi-out-{over}"')
    return open_text(board(delay, *MERGED, PRESET, *more, controller=controller).rig)


def told(old, new):
    found = compare(old, new)
    assert found.is_complete
    assert found.is_least
    return {task_words(task, old.rig, new.rig): details(task, new.rig) for task in found.tasks}


def test_told_once_for_a_unit_it_is_one_thing_to_set_and_no_preset_is_touched():
    old, new = (merged(over, SWELL, controller="pearmain-ten") for over in (1, 2))
    assert told(old, new) == {
        "tell Pearmain Ten which output each of these is behind": [
            "Bramley Delay: channel 3, output LINE B (was channel 3, output LINE A)"
        ]
    }


def test_chosen_for_each_message_every_row_of_it_is_entered_again():
    old, new = (merged(over, SWELL, controller="gilliflower-two") for over in (1, 2))
    found = told(old, new)
    assert list(found) == [
        'enter preset 1 "One" anew',
        "enter pedal Gilliflower Two FOOT on presets 1",
    ]
    rows = found['enter preset 1 "One" anew']
    assert rows
    assert all(" over OUT " in row for row in rows if "wait" not in row)
    pedal = found["enter pedal Gilliflower Two FOOT on presets 1"]
    assert pedal[0].startswith("channel 3, control 52 over OUT R: heel 0, toe ")


def test_what_goes_another_way_is_tested_again():
    for controller in ("pearmain-ten", "gilliflower-two"):
        found = compare(*(merged(over, controller=controller) for over in (1, 2)))
        assert "delay" in {one.whose for one in found.trials}


def test_what_is_plugged_into_another_output_is_replugged_and_told():
    old = two_lines()
    new = open_text(
        board(
            DELAY, SAME_CHANNEL, BOTH,
            a_cable("feet.midi-out-2", "delay.midi-in"),
            a_cable("feet.midi-out-1", "echo.midi-in"),
            controller="pearmain-ten",
        ).rig
    )  # fmt: skip
    found = compare(old, new)
    assert [task.kind for task in found.tasks] == [Kind.REPLUG, Kind.REPLUG, Kind.OUTPUTS]


def test_two_units_on_one_channel_do_not_take_each_others_messages():
    swapped = BOTH.replace("mix = 40", "mix = 41").replace("mix = 90", "mix = 40")
    swapped = swapped.replace("mix = 41", "mix = 90")
    for controller in ("pearmain-ten", "gilliflower-two"):
        old = two_lines(controller=controller)
        pieces = (DELAY, SAME_CHANNEL, TO_DELAY, TO_ECHO, swapped)
        new = open_text(board(*pieces, controller=controller).rig)
        assert [task.kind for task in compare(old, new).tasks] == [Kind.ENTER]


def test_a_new_controller_is_told_everything():
    found = compare(two_lines(controller="braeburn-six"), two_lines())
    (outputs,) = (task for task in found.tasks if task.kind is Kind.OUTPUTS)
    assert [change.key.whose for change in outputs.changes] == ["delay", "echo"]
    assert found.is_complete


def test_another_box_is_set_even_to_what_the_old_one_was_set_to():
    echo = SAME_CHANNEL.replace("bramley-delay", "laxton-echo")
    wants = a_preset(1, "One", "delay = { mix = 40 }")
    old = open_text(board(DELAY, SAME_CHANNEL, TO_DELAY, wants).rig)
    new = open_text(board(DELAY, echo, TO_DELAY, wants).rig)
    rows = told(old, new)
    assert any("MIDI channel 3" in row for row in rows["set Laxton Echo"])


BOARDS = st.fixed_dictionaries(
    {
        "controller": st.sampled_from(["pearmain-ten", "gilliflower-two", "braeburn-six"]),
        "delay": st.tuples(st.sampled_from([3, 4]), st.sampled_from(["", "1", "2"])),
        "echo": st.tuples(st.sampled_from([3, 5]), st.sampled_from(["", "1", "2"])),
        "crossed": st.booleans(),
        "mix": st.sampled_from([40, 41]),
        "program": st.sampled_from(["11B", "12A"]),
        "through": st.booleans(),
    }
)


def drawn(wish):
    """A board of two delays, each with the channel, output and cable that was drawn."""
    units = []
    for name in ("delay", "echo"):
        channel, over = wish[name]
        more = (f'sent-over = "midi-out-{over}"',) if over else ()
        units.append(a_unit(name, "bramley-delay", f"channel = {channel}", *more))
    ends = ("echo", "delay") if wish["crossed"] else ("delay", "echo")
    cables = [a_cable("feet.midi-out-1", f"{ends[0]}.midi-in")]
    start = f"{ends[0]}.midi-thru" if wish["through"] else "feet.midi-out-2"
    cables.append(a_cable(start, f"{ends[1]}.midi-in"))
    presets = (
        a_preset(1, "One", f'delay = {{ program = "{wish["program"]}", mix = {wish["mix"]} }}'),
        a_preset(2, "Two", "echo = { mix = 90 }"),
    )
    sweep = a_sweep("Swell", 'unit = "echo", control = "mix", heel = 0, toe = "80%"')
    pieces = (*units, *cables, *presets, sweep)
    return open_text(board(*pieces, controller=wish["controller"]).rig)


@settings(max_examples=25)
@given(BOARDS, BOARDS)
def test_carried_out_it_gives_the_new_board_and_what_is_not_tested_is_as_it_was(one, two):
    """And: where no preset is entered and a unit not tested, it hears just what it heard."""
    old, new = drawn(one), drawn({**two, "controller": one["controller"]})
    found = compare(old, new)
    assert found.is_complete
    assert found.is_least
    entered = {task.whose for task in found.tasks if task.kind is Kind.ENTER}
    tested = {trial.whose for trial in found.trials}
    before, after = found.old.case, found.new.case
    for preset in new.rig.presets:
        for unit in {"delay", "echo"} - tested if str(preset.number) not in entered else ():
            was = before.run(before.rig.preset(preset.number)).receptions[unit]
            now = after.run(preset).receptions[unit]
            assert (was.program, was.values) == (now.program, now.values)


@pytest.mark.parametrize("controller", ["pearmain-ten", "gilliflower-two", "braeburn-six"])
def test_of_a_board_with_itself_nothing_is_to_be_done(controller):
    assert compare(two_lines(controller=controller), two_lines(controller=controller)).tasks == ()
