from dataclasses import replace

from thruline.papers.search_record import Left, Next, Told, Tried, search_record

TOLD = Told(
    name="Pit",
    rig=("Three units.", "MIDI runs A → B.", "The board is on a stage."),
    said=("delay does nothing",),
    says="unsure: no further check tells these apart",
    tried=(Tried("Look.", "dark", "5 seconds", ("the lead is open", "3 more")),),
    left=(Left("61 %", "it has no power", "give it power"),),
    after=(Next("Measure it.", "2 minutes", "Isolate first."),),
    spent="5 seconds",
)


def sections(told):
    return {one.title: one for one in search_record(told).sections}


def test_a_record_holds_everything_that_was_seen_and_what_is_left():
    paper = search_record(TOLD)
    assert paper.about[0] == "Unsure: no further check tells these apart."
    assert any("licensed practice" in one for one in paper.about)
    found = sections(TOLD)
    assert found["The rig"].says == TOLD.rig
    assert found["What was complained of"].says == ("delay does nothing",)
    tried = ("1", "Look.", "dark", "5 seconds", "the lead is open; 3 more")
    assert found["What was tried"].table.rows == (tried,)
    assert found["What is left"].table.rows == (("61 %", "it has no power", "give it power"),)
    assert found["What would be tried next"].table.rows == (
        ("Measure it. Isolate first.", "2 minutes"),
    )
    assert "Answers that contradict each other" not in found


def test_what_there_is_nothing_of_is_said():
    bare = replace(TOLD, said=(), tried=(), after=(), doubt="try number 1 again")
    found = sections(bare)
    assert found["What was complained of"].says == ("Nothing was put into words.",)
    assert found["What was tried"].says == ("Nothing yet.",)
    assert found["What would be tried next"].says == ("No further check tells these apart.",)
    assert found["Answers that contradict each other"].says == ("Try number 1 again.",)
