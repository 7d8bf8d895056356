"""`thruline mend`."""

from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.opening import with_head
from thruline.proof.example_boards import DELAY, TO_DELAY, a_power_lead, a_preset, a_unit, board

MESSAGES = 'messages = ["3: control 0 = 0", "3: control 32 = 0", "3: program 7"]'
STORED = a_preset(1, "Overture", "# as found", MESSAGES, 'delay = { program = "2A" }')
LONG = a_preset(2, "The long farewell at the orchard gate", 'delay = { program = "2B" }')
TEXT = with_head(board(DELAY, TO_DELAY, STORED, LONG).rig)


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    file = tmp_path / "board.rig.toml"
    file.write_text(TEXT)
    return file


def test_mends_are_named_and_nothing_is_written(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said = ran(capsys, "mend", rig)
    assert said.code == 1
    assert "--do -preset.1.messages" in said.out
    assert "--do preset.2.name=The-long" in said.out
    assert "--safe   (1 of 2)" in said.out
    assert rig.read_text() == TEXT


def test_one_is_applied_and_shown_as_a_difference(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said = ran(capsys, "mend", rig, "--do", "preset.2.name")
    assert '-name = "The long farewell at the orchard gate"' in said.out
    assert '+name = "The long"' in said.out
    assert 'name = "The long"' in rig.read_text()


def test_all_safe_ones_and_back_again(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "mend", rig, "--safe")
    assert said.code == 0
    assert "messages" not in rig.read_text()
    assert "# as found" in rig.read_text()
    assert ran(capsys, "mend", rig, "--undo").code == 1
    assert rig.read_text() == TEXT


def test_trying_writes_nothing(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "mend", rig, "--safe", "--try")
    assert "nothing was written" in said.out
    assert rig.read_text() == TEXT


def test_a_name_that_is_not_there(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "mend", rig, "--do", "none")
    assert said.code == 2
    assert 'there is no mend "none"' in said.err


def test_one_thing_at_a_time(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert ran(capsys, "mend", rig, "--safe", "--undo").code == 2


OTHER = a_unit("other", "bramley-delay", "channel = 5")
FED = a_power_lead("supply.outlet-11", "feet.power-in")
SUPPLY = a_unit("supply", "elstar-supply")
UNFED = with_head(board(DELAY, TO_DELAY, OTHER, SUPPLY, FED, LONG).rig)


def feeds(rig: Path, capsys: pytest.CaptureFixture[str]) -> list[str]:
    names = [one["name"] for one in ran(capsys, "mend", rig, "--json").json["mends"]]
    return [name for name in names if "supply" in name]


@pytest.mark.parametrize("tried", [(), ("--try",)])
def test_two_that_spoil_each_other_are_refused_together(
    rig: Path, capsys: pytest.CaptureFixture[str], tried: tuple[str, ...]
) -> None:
    rig.write_text(UNFED)
    one, other = feeds(rig, capsys)
    said = ran(capsys, "mend", rig, "--do", "preset.2", "--do", one, "--do", other, *tried)
    assert said.code == 2
    assert f"{one} and {other} spoil each other; with both: " in said.err
    assert "preset.2" not in said.err
    assert "Nothing was written" in said.err
    assert rig.read_text() == UNFED


def test_each_alone_is_made_and_the_next_then_finds_another_way(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rig.write_text(UNFED)
    assert ran(capsys, "mend", rig, "--do", feeds(rig, capsys)[0]).code == 1
    assert ran(capsys, "mend", rig, "--do", feeds(rig, capsys)[0]).code == 0


def test_nothing_to_take_back(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "mend", rig, "--undo")
    assert said.code == 2
    assert "nothing is kept" in said.err


def test_json_carries_names_effects_and_steps(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    listed = ran(capsys, "mend", rig, "--json").json
    assert [one["name"] for one in listed["mends"]] == [
        "-preset.1.messages",
        "preset.2.name=The-long",
    ]
    assert listed["mends"][0]["safe"] is True
    done = ran(capsys, "mend", rig, "--safe", "--json").json
    assert done["written"] is True
    assert len(done["steps"]) == 1
    assert done["steps"][0]["diff"].startswith("---")


def test_a_change_by_hand_is_not_lost_by_undoing(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    ran(capsys, "mend", rig, "--safe")
    rig.write_text(rig.read_text() + "\n# by hand\n")
    said = ran(capsys, "mend", rig, "--undo")
    assert said.code == 2
    assert "was changed since" in said.err
    assert rig.read_text().endswith("# by hand\n")


def test_several_are_all_applied(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "mend", rig, "--do", "preset.2", "--do", "-preset.1.messages")
    assert said.out.count("mended  ") == 2
    assert "messages" not in rig.read_text()
    assert 'name = "The long"' in rig.read_text()


def test_one_name_that_is_wrong_stops_all(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert ran(capsys, "mend", rig, "--do", "preset.2", "--do", "2").code == 2
    assert rig.read_text() == TEXT


def test_a_name_holds_when_another_mend_was_made(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    ran(capsys, "mend", rig, "--do", "-preset.1.messages")
    ran(capsys, "mend", rig, "--do", "preset.2.name=The-long")
    assert 'name = "The long"' in rig.read_text()


def test_back_step_by_step_with_the_verdict_only(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    ran(capsys, "mend", rig, "--do", "-preset.1.messages")
    ran(capsys, "mend", rig, "--do", "preset.2.name=The-long")
    first = ran(capsys, "mend", rig, "--undo")
    assert "1 more can be taken back" in first.out
    assert len(first.out.splitlines()) == 3
    second = ran(capsys, "mend", rig, "--undo", "--json")
    assert second.json["left"] == 0
    assert rig.read_text() == TEXT
    assert "no mend is left" in ran(capsys, "mend", rig, "--undo").err


SETTING = DELAY.replace("channel = 3", 'channel = 3\nsettings = { program-receive = "off" }')


def test_what_is_gone_what_is_new_and_what_the_hands_must_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "deaf.rig.toml"
    tune = a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }')
    file.write_text(with_head(board(SETTING, TO_DELAY, tune).rig))
    listed = ran(capsys, "mend", file, "--json").json["mends"]
    name = next(one["name"] for one in listed if one["name"].startswith("delay.program-receive"))
    tried = ran(capsys, "mend", file, "--do", name, "--try", "--json").json
    assert any(one.startswith("set ") for one in tried["by_hand"])
    said = ran(capsys, "mend", file, "--do", name)
    assert "    gone: " in said.out
    assert "now on the bench:\n    [ ] set " in said.out
