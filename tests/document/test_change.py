import difflib
import re
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel

from tests.document.toml_texts import KEYS, SCALARS, documents, values
from thruline.base.address import read_address
from thruline.base.edit import Edit, EditKind, add_to, remove, set_to
from thruline.base.errors import CannotUse
from thruline.document.blocks import stand_apart
from thruline.document.change import apply, apply_to
from thruline.document.inline import has_own_key
from thruline.document.naming import address_of, trail_of
from thruline.document.parse import parse
from thruline.document.places import BOM, Kind, places
from thruline.document.plain import apply_to_data, at_trail, is_there, same
from thruline.document.sheet import row_ends_of, sheet

NOTE = re.compile(r"# note \d+")


def all_trails(data, trail=()):
    yield trail
    if not isinstance(data, dict | list):
        return
    for part, value in data.items() if isinstance(data, dict) else enumerate(data):
        yield from all_trails(value, (*trail, part))


def reached(data, trail):
    for part in trail:
        data = data[part]
    return data


def values_at(data, kind):
    return [trail for trail in all_trails(data) if isinstance(reached(data, trail), kind)]


def read(text):
    return tomllib.loads(text.removeprefix(BOM))


@st.composite
def edited(draw):
    """A text, its data, and an edit that has something to work on."""
    text, data = draw(documents())
    kind = draw(st.sampled_from(["set", "new key", "add", "new list", "remove"]))
    tables, lists = values_at(data, dict), values_at(data, list)
    there = [trail for trail in all_trails(data) if trail]
    if kind in ("set", "remove") and there:
        address = address_of(data, draw(st.sampled_from(there)))
        return text, data, set_to(address, draw(values())) if kind == "set" else remove(address)
    if kind == "add" and lists:
        trail = draw(st.sampled_from(lists))
        tables_only = places(text).of[trail].kind is Kind.ENTRIES
        entry = draw(st.dictionaries(KEYS, values(), max_size=3) if tables_only else values())
        return text, data, Edit(EditKind.ADD, address_of(data, trail), entry)
    new = draw(st.sampled_from(["new", "very new", "neü"]))
    trail = (*draw(st.sampled_from(tables)), *draw(st.sampled_from([(), ("between",)])), new)
    entry = draw(st.dictionaries(KEYS, values(), max_size=3))
    if kind == "new list":
        return text, data, add_to(address_of(data, trail), entry)
    return text, data, set_to(address_of(data, trail), draw(values()))


@given(edited())
def test_the_text_reads_as_the_edit_means(case):
    text, data, edit = case
    changed = apply(text, [edit])
    assert same(read(changed), apply_to_data(data, edit))
    if "\r\n" in text:
        assert "\n" not in changed.replace("\r\n", "")


@given(documents(), st.data())
def test_a_new_leaf_changes_nothing_but_that_leaf(document, chance):
    text, data = document
    found = places(text).of
    inline = [trail for trail in found if found[trail].kind in (Kind.PAIR, Kind.INNER, Kind.ITEM)]
    leaves = [trail for trail in inline if not isinstance(reached(data, trail), dict | list)]
    if not leaves:
        return
    trail = chance.draw(st.sampled_from(leaves))
    changed = apply(text, [set_to(address_of(data, trail), chance.draw(SCALARS))])
    place = found[trail]
    assert changed.startswith(text[: place.start])
    assert changed.endswith(text[place.end :])


@given(edited())
def test_setting_and_adding_keep_every_comment(case):
    text, data, edit = case
    changes_kind = edit.kind is EditKind.SET and _drops_something(data, edit)
    if edit.kind is EditKind.REMOVE or changes_kind:
        return
    assert NOTE.findall(apply(text, [edit])) == NOTE.findall(text)


@given(documents(), st.data())
def test_another_order_keeps_every_row_and_every_comment(document, chance):
    text, data = document
    found = places(text).of
    lists = [trail for trail in found if found[trail].kind is Kind.ENTRIES]
    if not lists:
        return
    trail = chance.draw(st.sampled_from(lists))
    entries = chance.draw(st.permutations(reached(data, trail)))
    edit = set_to(address_of(data, trail), entries)
    changed = apply(text, [edit])
    assert same(read(changed), apply_to_data(data, edit))
    one = sheet(places(text), read(text), row_ends=row_ends_of(text))
    if stand_apart(one, trail, len(entries)):
        assert _rows(changed) == _rows(text)


def _rows(text):
    """The rows that are not blank, whatever they end with."""
    return sorted(row.strip() for row in text.removeprefix(BOM).splitlines() if row.strip())


@given(documents(), st.data())
def test_a_key_that_is_renamed_takes_its_place_and_comments_along(document, chance):
    text, data = document
    one = sheet(places(text), read(text), row_ends=row_ends_of(text))
    own = [trail for trail in one.where.of if has_own_key(one, trail) and len(trail) > 1]
    if not own:
        return
    trail = chance.draw(st.sampled_from(own))
    renamed = dict(reached(data, trail[:-1]))
    renamed["new"] = renamed.pop(trail[-1])
    changed = apply(text, [set_to(address_of(data, trail[:-1]), renamed)])
    place = one.where.of[trail]
    assert changed == f"{text[: place.key]}new{text[place.key_end :]}"


def _drops_something(data, edit):
    """Whether a table or list gives way to something else, and its inner comments with it."""
    trail = trail_of(data, edit.address)
    return is_there(data, trail) and isinstance(at_trail(data, trail), dict | list)


@given(edited())
def test_setting_what_is_there_changes_no_byte(case):
    text, data, _ = case
    for key, value in data.items():
        assert apply(text, [set_to(address_of(data, (key,)), value)]) == text


RIG = """\
# Orchard Street Revival
# plan of May

format = 1
[rig]
name = "Orchard"   # the act

# the foot controller
[[unit]]
id = "feet"
chart = "braeburn-six"

# the delay, top row
[[unit]]
id = "delay"
channel = 3      # as on its label
settings = { midi-out = "thru", clock = "on" }
# channel = 4

# ---- cables ----

[[cable]]
from = "feet.midi-out"
to = "delay.midi-in"

[[sweep]]
name = "Swell"
moves = [
  { unit = "delay", control = "mix" },   # slow
  { unit = "reverb", control = "level" }
]
"""


def rows_changed(*edits, text=RIG):
    """The rows that went (-) and came (+), in the order of the text."""
    before, after = text.splitlines(), apply(text, edits).splitlines()
    told = difflib.ndiff(before, after)
    return [row for row in told if row[0] in "+-"]


def test_a_value_is_replaced_and_its_comment_stays():
    assert rows_changed(set_to(read_address("unit[delay].channel"), 5)) == [
        "- channel = 3      # as on its label",
        "+ channel = 5      # as on its label",
    ]


def test_a_key_goes_with_its_row_and_the_comment_in_it():
    assert rows_changed(remove(read_address("unit[delay].channel"))) == [
        "- channel = 3      # as on its label"
    ]


def test_a_new_key_comes_after_the_last_one_of_its_table():
    changed = apply(RIG, [set_to(read_address("unit[feet].channel"), 1)])
    assert 'chart = "braeburn-six"\nchannel = 1\n\n# the delay' in changed
    changed = apply(RIG, [set_to(read_address("unit[delay].about"), "x")])
    assert '"on" }\nabout = "x"\n# channel = 4\n\n# ---- cables' in changed


def test_a_new_key_of_the_root_comes_before_the_first_table():
    assert "format = 1\nkind = 2\n[rig]" in apply(RIG, [set_to(read_address("kind"), 2)])
    assert apply("# mine\n\n# a\n[a]\n", [set_to(read_address("kind"), 2)]) == (
        "# mine\n\nkind = 2\n\n# a\n[a]\n"
    )
    assert apply("# mine", [set_to(read_address("kind"), 2)]) == "# mine\nkind = 2\n"


def test_a_new_table_in_a_unit_stands_in_its_row_or_gets_a_header():
    assert rows_changed(set_to(read_address("unit[feet].place.x"), 5)) == ["+ place = { x = 5 }"]
    changed = apply(RIG, [set_to(read_address("unit[feet].notes"), {"long": "y" * 90})])
    assert f'braeburn-six"\n\n[unit.notes]\nlong = "{"y" * 90}"\n\n# the delay' in changed


def test_a_new_entry_comes_after_the_last_one_of_its_list():
    changed = apply(RIG, [add_to(read_address("unit"), {"id": "pre", "place": {"x": 1}})])
    new = '[[unit]]\nid = "pre"\nplace = { x = 1 }\n'
    assert f"# channel = 4\n\n{new}\n# ---- cables ----" in changed


def test_a_new_list_or_table_of_the_root_comes_last():
    edits = [
        add_to(read_address("song"), {"name": "Act one"}),
        set_to(read_address("audio.path"), ["guitar", "amp"]),
    ]
    expected = '\n[[song]]\nname = "Act one"\n\n[audio]\npath = ["guitar", "amp"]\n'
    assert apply(RIG, edits) == RIG + expected


def test_an_entry_goes_with_its_own_comments_and_leaves_the_others():
    rest = apply(RIG, [remove(read_address("unit[delay]"))])
    assert 'braeburn-six"\n\n# ---- cables ----\n\n[[cable]]' in rest
    assert "# the delay, top row" not in rest
    rest = apply(RIG, [remove(read_address("unit[feet]"))])
    assert 'the act\n\n# the delay, top row\n[[unit]]\nid = "delay"' in rest


def test_the_comment_at_the_head_of_a_document_stays():
    text = "# mine\n[[unit]]\nid = 'a'\n"
    assert apply(text, [remove(read_address("unit[a]"))]) == "# mine\n"


def test_entries_of_an_array_in_rows():
    assert rows_changed(add_to(read_address("sweep[Swell].moves"), {"unit": "a"})) == [
        '-   { unit = "reverb", control = "level" }',
        '+   { unit = "reverb", control = "level" },',
        '+   { unit = "a" }',
    ]
    assert rows_changed(remove(read_address("sweep[Swell].moves[delay>mix]"))) == [
        '-   { unit = "delay", control = "mix" },   # slow'
    ]


def test_a_list_that_is_set_keeps_the_rows_that_stay():
    moves = [{"unit": "a"}, {"unit": "delay", "control": "mix"}]
    assert rows_changed(set_to(read_address("sweep[Swell].moves"), moves)) == [
        '+   { unit = "a" },',
        '-   { unit = "reverb", control = "level" }',
    ]


@pytest.mark.parametrize(
    ("text", "edit", "changed"),
    [
        ("a.b = 1\n", remove(read_address("a.b")), "a = {}\n"),
        ("x = { a.b = 1 }\n", remove(read_address("x.a.b")), "x = { a = {} }\n"),
        ("[a.b]\nc = 1\n", remove(read_address("a.b")), "[a]\n"),
        ("a.b = 1\nc = 2\n", set_to(read_address("a.d"), 3), "a.b = 1\na.d = 3\nc = 2\n"),
        ("[a.b]\nc = 1\n", set_to(read_address("a.d"), 3), "[a]\nd = 3\n\n[a.b]\nc = 1\n"),
        ("x = { a.b = 1, c = 2 }", set_to(read_address("x.a.d"), 3),
         "x = { a.b = 1, c = 2, a.d = 3 }"),
        ("x = [1, 2, 3]", remove(read_address("x[#2]")), "x = [1, 3]"),
        ("x = [1, 2, 3]", remove(read_address("x[#3]")), "x = [1, 2]"),
        ("x = [1]", remove(read_address("x[#1]")), "x = []"),
        ("x = [ # c\n]", Edit(EditKind.ADD, read_address("x"), 1), "x = [ # c\n1]"),
        ("x = {}", set_to(read_address("x.y"), 1), "x = { y = 1 }"),
        ("a = 1\n", set_to(read_address("a"), {"b": 2}), "a = { b = 2 }\n"),
        ("[a]\nb = 1\n", set_to(read_address("a"), 2), "a = 2\n"),
        ("  a = 1\n", set_to(read_address("b"), 2), "  a = 1\n  b = 2\n"),
        (f"{BOM}a = 1\r\n", set_to(read_address("b"), 2), f"{BOM}a = 1\r\nb = 2\r\n"),
        ("a = { b = 1 } # c\n", set_to(read_address("a"), {"d": 1}), "a = { d = 1 } # c\n"),
        ("[a]\nb = 1 # c\nd = 2\n", set_to(read_address("a"), {"e": 1, "d": 3}),
         "[a]\ne = 1 # c\nd = 3\n"),
        ("[a]\nb.c = 1\n", set_to(read_address("a"), {"d": {"c": 1}}), "[a]\nd = { c = 1 }\n"),
        (f"{BOM}a = 1\nb = 2", remove(read_address("a")), f"{BOM}b = 2"),
    ],
)  # fmt: skip
def test_small_texts(text, edit, changed):
    assert apply(text, [edit]) == changed


@pytest.mark.parametrize("address", ["unit[feet].name", "unit[feet].place.turn", "audio"])
def test_what_is_not_there_is_removed_quietly(address):
    assert apply(RIG, [remove(read_address(address))]) == RIG


def test_edits_follow_one_another():
    edits = [set_to(read_address("unit[delay].id"), "echo"), remove(read_address("unit[echo]"))]
    assert apply(RIG, edits) == apply(RIG, [remove(read_address("unit[delay]"))])


@pytest.mark.parametrize(
    ("text", "edit"),
    [
        (RIG, remove(read_address("unit[echo]"))),
        (RIG, set_to(read_address("rig.name.first"), "x")),
        (RIG, set_to(read_address("rig.name"), 2**63)),
        ("[[a]]", Edit(EditKind.ADD, read_address("a"), 1)),
        ("a =", set_to(read_address("a"), 1)),
        ("a = 1", set_to(read_address("a"), "\ud800")),
    ],
)
def test_what_cannot_be_changed(text, edit):
    with pytest.raises(CannotUse):
        apply(text, [edit])


def test_a_document_that_has_been_read_already():
    class Anything(BaseModel):
        pass

    document = parse(RIG, Anything, file="b.rig.toml")
    edits = [set_to(read_address("unit[delay].channel"), 5), remove(read_address("unit[feet]"))]
    assert apply_to(document, edits) == apply(RIG, edits)
    assert document.text == RIG
    assert document.data == read(RIG)
