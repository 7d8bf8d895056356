import errno
import os

import pytest

from tests.samples.reading import CHART_FILES
from thruline.base.errors import WorldFailed
from thruline.outside import shelves
from thruline.outside.shelves import beside, own_shelf, sample_shelf


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "charts").mkdir()
    (tmp_path / "charts" / "bramley.chart.toml").write_text("a")
    (tmp_path / "charts" / "notes.txt").write_text("b")
    return tmp_path


def test_charts_in_a_folder(folder):
    shelf = beside(folder)
    assert shelf.ids() == ("bramley",)
    assert shelf.find("bramley").content == b"a"
    assert shelf.find("bramley").file == str(folder / "charts" / "bramley.chart.toml")
    assert shelf.find("russet") is None


def test_a_folder_that_is_not_there(tmp_path):
    shelf = own_shelf(tmp_path / "nowhere")
    assert shelf.ids() == ()
    assert shelf.find("bramley") is None


def test_a_folder_of_that_name_is_no_chart(folder):
    (folder / "charts" / "russet.chart.toml").mkdir()
    assert beside(folder).find("russet") is None


def test_the_samples():
    shelf = sample_shelf()
    assert len(shelf.ids()) == len(CHART_FILES)
    assert shelf.find("bramley-delay").file == "samples/charts/bramley-delay.chart.toml"


def test_a_chart_that_cannot_be_read(folder, monkeypatch):
    def fail(file):
        raise WorldFailed(f"{file} cannot be read: {os.strerror(errno.EIO)}")

    monkeypatch.setattr(shelves, "read_bytes", fail)
    with pytest.raises(WorldFailed, match="bramley"):
        beside(folder).find("bramley")
