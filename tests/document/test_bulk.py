import tomllib

from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.app.kinds import parse_rig
from thruline.base.address import read_address
from thruline.base.edit import remove, set_to
from thruline.document.bulk import entry_by_entry, reads_as
from thruline.document.change import apply_to
from thruline.outside.samples import ORCHARD_STREET, sample_text

RIG = parse_rig(sample_text(ORCHARD_STREET), file="example.rig.toml")
NUMBERS = [one["number"] for one in RIG.data["preset"]]
UNITS = ("delay", "reverb", "echo", "drive")

sets = st.builds(
    lambda number, unit, value: set_to(read_address(f"preset[{number}].{unit}"), value),
    st.sampled_from(NUMBERS),
    st.sampled_from(UNITS),
    st.sampled_from(["1A", {"program": "2B", "mix": 5}, {"mix": "40%"}, 'a "quoted" [word]']),
)


@settings(max_examples=15)
@given(st.lists(sets, min_size=7, max_size=14))
def test_many_edits_make_the_text_that_single_ones_make(edits):
    text = entry_by_entry(RIG, edits)
    assert text == apply_to(RIG, edits)
    assert reads_as(tomllib.loads(text), RIG.data, edits)


def test_keys_are_removed_in_bulk():
    places = [
        read_address(f"preset[{one['number']}].delay")
        for one in RIG.data["preset"]
        if "delay" in one
    ]
    edits = [remove(one) for one in places]
    assert entry_by_entry(RIG, edits) == apply_to(RIG, edits)


def test_what_cannot_be_cut_out_is_seen_to_be_wrong():
    whole = sample_text(ORCHARD_STREET)
    text = whole.replace('about = "Walk-in music, very quiet."', 'about = """\n[[preset]]\n"""')
    assert text != whole
    odd = parse_rig(text, file="example.rig.toml")
    edits = [set_to(read_address(f"preset[{one}].delay"), "3C") for one in NUMBERS]
    assert entry_by_entry(odd, edits) is None
    changed = apply_to(odd, edits)
    assert reads_as(tomllib.loads(changed), odd.data, edits)
    assert not reads_as(odd.data, odd.data, edits)


def test_edits_of_several_lists_are_not_of_that_kind():
    edits = [
        set_to(read_address("rig.name"), "A"),
        *(set_to(read_address(f"preset[{one}].name"), "B") for one in NUMBERS[:8]),
    ]
    assert entry_by_entry(RIG, edits) is None
    assert entry_by_entry(RIG, []) is None
