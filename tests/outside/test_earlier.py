import pytest

from tests.samples.reading import FIRST_BOARD
from thruline.base.errors import CannotUse
from thruline.outside.earlier import put_back, write_keeping


@pytest.fixture
def rig(tmp_path):
    file = tmp_path / "board.rig.toml"
    file.write_bytes(FIRST_BOARD.read_bytes())
    return file


def test_step_by_step_back(rig):
    before = rig.read_text()
    write_keeping(rig, "after", before=before)
    write_keeping(rig, "later", before="after")
    assert (put_back(rig), rig.read_text()) == (1, "after")
    assert (put_back(rig), rig.read_text()) == (0, before)
    assert list(rig.parent.iterdir()) == [rig]


def test_nothing_is_put_back_where_there_is_no_document(rig):
    with pytest.raises(CannotUse, match="no mend is left"):
        put_back(rig)
    with pytest.raises(CannotUse, match=r"bord\.rig\.toml is not there; did"):
        put_back(rig.with_name("bord.rig.toml"))


def test_nothing_is_saved_over_a_change_by_somebody_else(rig):
    with pytest.raises(CannotUse, match="was changed by something else"):
        write_keeping(rig, "after", before="something else")
    assert rig.read_bytes() == FIRST_BOARD.read_bytes()
    assert [file.name for file in rig.parent.iterdir()] == [rig.name]


def test_what_is_kept_survives_a_save_that_is_refused(rig):
    before = rig.read_text()
    write_keeping(rig, "after", before=before)
    with pytest.raises(CannotUse, match="was changed by something else"):
        write_keeping(rig, "later", before="something else")
    put_back(rig)
    assert rig.read_text() == before


@pytest.mark.parametrize("text", ["\ufeffa = 1\r\nb = 2\r\n", "a = 1", "a = 'ö'\n\n\n"])
def test_every_byte_is_put_back(rig, text):
    rig.write_bytes(text.encode())
    write_keeping(rig, "after", before=text)
    put_back(rig)
    assert rig.read_bytes() == text.encode()


def test_a_rig_that_has_gone_is_not_written(rig):
    before = rig.read_text()
    rig.unlink()
    with pytest.raises(CannotUse, match="is not there"):
        write_keeping(rig, "after", before=before)
    assert list(rig.parent.iterdir()) == []
