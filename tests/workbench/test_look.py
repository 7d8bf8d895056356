from thruline.papers.colours import DARK, LIGHT
from thruline.workbench.look import colours_css


def test_both_looks_are_there_and_a_person_may_choose():
    css = colours_css()
    assert css.count(f"--ground:{DARK.ground};") == 2
    assert css.count(f"--ground:{LIGHT.ground};") == 1
    assert "prefers-color-scheme:dark" in css
    assert css.count("{") == css.count("}")
