"""A channel that is free, as a mend."""

from tests.proof.boards import case_of
from thruline.proof.channel_mends import free_channel
from thruline.proof.example_boards import a_unit, board
from thruline.proof.finding import Mend


def offered(*units: str) -> list[Mend]:
    """What is offered for the unit `delay` of a board of these units."""
    case = case_of(board(*units))
    return list(free_channel(case, case.rig.units["delay"]))


def test_the_first_channel_that_nobody_has() -> None:
    (mend,) = offered(
        a_unit("delay", "bramley-delay", "channel = 2"),
        a_unit("lights", "discovery-lights", "channel = 2"),
    )
    (edit,) = mend.edits
    assert (str(edit.address), edit.value) == ("unit[delay].channel", 3)
    assert mend.says.startswith("Set Bramley Delay to channel 3, which is free (")


def test_a_unit_of_two_channels_needs_both_free() -> None:
    case = case_of(
        board(
            a_unit("bass", "worcester-bass", "channel = 2"),
            a_unit("lights", "discovery-lights", "channel = 3"),
        )
    )
    (mend,) = free_channel(case, case.rig.units["bass"])
    assert mend.edits[0].value == 4


def test_where_every_channel_is_taken_nothing_is_offered() -> None:
    others = [
        a_unit(f"lights-{channel}", "discovery-lights", f"channel = {channel}")
        for channel in range(1, 17)
    ]
    assert offered(a_unit("delay", "bramley-delay", "channel = 2"), *others) == []
