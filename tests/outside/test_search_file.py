import json

from hypothesis import given
from hypothesis import strategies as st

from thruline.outside.search_file import SearchFile

DATA = {"place": "bench", "steps": [{"did": "cannot", "on": "lamp delay 3", "answer": ""}]}
PLAIN = st.dictionaries(st.text(max_size=8), st.one_of(st.text(max_size=8), st.integers()))


def test_nothing_is_kept_at_first_and_again_after_it_is_taken_away(tmp_path):
    place = SearchFile(tmp_path / "searches", "/boards/one.rig.toml")
    assert place.recall() is None
    place.keep(None)
    place.keep(DATA)
    assert place.recall() == DATA
    place.keep(None)
    assert place.recall() is None


def test_rigs_do_not_see_each_others_search(tmp_path):
    SearchFile(tmp_path, "one").keep(DATA)
    assert SearchFile(tmp_path, "two").recall() is None


@given(data=PLAIN)
def test_what_is_kept_comes_back(tmp_path_factory, data):
    folder = tmp_path_factory.mktemp("kept")
    SearchFile(folder, "one").keep(data)
    assert SearchFile(folder, "one").recall() == data


def test_a_spoiled_file_is_no_search(tmp_path):
    place = SearchFile(tmp_path, "one")
    place.keep(DATA)
    file = next(tmp_path.iterdir())
    for content in ("{", "[]", json.dumps({"rig": "other", "search": DATA}), '{"rig": "one"}'):
        file.write_text(content)
        assert place.recall() is None
