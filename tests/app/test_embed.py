import pytest

from tests.opening import TextShelf
from tests.samples.reading import CHART_FILES, FIRST_BOARD
from thruline.app.embed import Laid, embed_json, embedding
from thruline.app.load import open_rig
from thruline.outside.shelves import sample_shelf

TEXTS = {file.name.split(".")[0]: file.read_text(encoding="utf-8") for file in CHART_FILES}
USED = ["elstar-supply", "laxton-echo", "pippin-reverb", "quarrenden-three", "ribston-treadle"]


def laid(*beside, replace=False):
    shelves = (TextShelf(beside), sample_shelf())
    opened = open_rig(FIRST_BOARD.read_bytes(), file="a.rig.toml", shelves=shelves)
    return {one.chart: one for one in embedding(opened, replace=replace)}


def test_every_chart_that_is_used_is_copied():
    found = laid()
    assert list(found) == USED
    for chart_id, one in found.items():
        assert one.laid is Laid.COPIED
        assert one.content == TEXTS[chart_id].encode()


def test_what_is_there_already_stays():
    one = laid(TEXTS["laxton-echo"])["laxton-echo"]
    assert (one.laid, one.content) == (Laid.THERE, None)


@pytest.mark.parametrize(("replace", "result"), [(False, Laid.DIFFERS), (True, Laid.REPLACED)])
def test_what_differs_is_replaced_only_when_asked(replace, result):
    one = laid(TEXTS["laxton-echo"] + "\n# mine\n", replace=replace)["laxton-echo"]
    assert one.laid is result
    assert (one.content is not None) is replace


def test_a_chart_of_ones_own_is_there():
    own = TEXTS["laxton-echo"].replace('"laxton-echo"', '"mine"')
    text = FIRST_BOARD.read_text(encoding="utf-8").replace("laxton-echo", "mine")
    opened = open_rig(text, file="a", shelves=(TextShelf((own,)), sample_shelf()))
    one = next(one for one in embedding(opened) if one.chart == "mine")
    assert one.laid is Laid.THERE


def test_told_to_other_programs():
    told = embed_json("a.rig.toml", tuple(laid().values()))
    assert told["charts"][0] == {
        "id": "elstar-supply",
        "laid": "copied",
        "found": "samples/charts/elstar-supply.chart.toml",
    }
