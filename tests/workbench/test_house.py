import asyncio

import pytest

from tests.workbench.asking import in_thread
from thruline.base.errors import CannotUse
from thruline.workbench.house import House


def test_a_folder_shows_its_rigs_and_a_file_itself(folder):
    (folder / "notes.txt").write_text("x")
    assert House(folder).names == ("found", "good")
    assert House(folder / "good.rig.toml").names == ("good",)


def test_only_what_was_named_is_opened(folder):
    house = House(folder / "good.rig.toml")
    with pytest.raises(CannotUse, match='no rig "found"'):
        in_thread(lambda: asyncio.run(house.room("found")))
    assert in_thread(lambda: asyncio.run(house.room("good"))) is house.rooms[0]


def test_a_changed_file_is_noticed_where_somebody_looks(folder):
    async def looks():
        house = House(folder)
        room = await house.room("good")
        file = folder / "good.rig.toml"
        file.write_text(file.read_text() + "# more\n")
        await house.look_at_files()
        assert room.turn == 1
        with room.listening() as event:
            await house.look_at_files()
            assert room.turn == 2
            assert event.is_set()
            file.unlink()
            await house.look_at_files()
        assert not room.is_watched

    in_thread(lambda: asyncio.run(looks()))
