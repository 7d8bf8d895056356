"""What a finding rests on."""

from thruline.proof.evidence import EvidenceKind, facts, sent, times, two_presets, way


def test_each_kind_has_its_maker() -> None:
    made = [make(("a", "b")) for make in (way, sent, times, two_presets, facts)]
    assert [one.kind for one in made] == list(EvidenceKind)


def test_rows_keep_their_order() -> None:
    assert facts(("first", "1"), ("second", "2")).rows == (("first", "1"), ("second", "2"))
