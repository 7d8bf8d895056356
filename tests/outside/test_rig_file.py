import pytest

from thruline.base.errors import CannotUse
from thruline.outside.rig_file import RigFile


def test_a_file_is_written_only_over_what_is_expected(tmp_path):
    place = tmp_path / "board.rig.toml"
    place.write_bytes(b"one")
    file = RigFile(place)
    assert file.says == str(place)
    file.write("two", expected=file.read())
    assert place.read_bytes() == b"two"
    with pytest.raises(CannotUse, match="changed by something else"):
        file.write("three", expected=b"one")
    assert place.read_bytes() == b"two"
