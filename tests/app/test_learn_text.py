import tomllib

from thruline.app.learn_said import Remark
from thruline.app.learn_text import WIDTH, comment, with_remarks
from thruline.base.address import at

TEXT = """format = 1
[rig]
name = "A"
controller = "feet"

[[unit]]
id = "feet"
chart = "braeburn-six"
# a person's own words
[[preset]]
number = 4
name = "Dawn"
"""


def test_a_remark_stands_above_what_it_is_about_and_changes_nothing():
    remarks = [
        Remark(at("preset", 4), "what this does"),
        Remark(at("unit", "feet").child("chart"), "which it is"),
        Remark(None, "everything else"),
    ]
    text = with_remarks(TEXT, remarks, file="a.rig.toml")
    assert tomllib.loads(text) == tomllib.loads(TEXT)
    rows = text.split("\n")
    assert rows[0] == "# unknown: everything else"
    assert rows[rows.index("[[preset]]") - 1] == "# unknown: what this does"
    assert rows[rows.index("[[unit]]") - 1] == "# unknown: which it is"
    assert "# a person's own words" in rows


def test_a_long_remark_has_several_rows():
    rows = comment("word " * 60)
    assert len(rows) > 2
    assert all(row.startswith("#") and len(row) <= WIDTH for row in rows)
