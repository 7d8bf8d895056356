"""Rigs that make no sense are proved like any other: nothing breaks, and no promise is broken."""

import random

import pytest

from benchmarks.odd_rigs import edited, odd_document, odd_text
from benchmarks.proof_checks import check_edit, check_mends, check_proof, check_traces, opened
from tests.samples.reading import AS_FOUND, ORCHARD, plain
from thruline.app.mend import State, state_of
from thruline.document.write import document_text

ONE_UNIT = 'format = 1\n[rig]\nname = "x"\ncontroller = "{}"\n[[unit]]\nid = "it"\nchart = "{}"\n'


def proved(text: str) -> State:
    state = state_of(opened(text))
    check_proof(state)
    return state


@pytest.mark.parametrize("start", range(0, 120, 20))
def test_any_rig_is_proved(start: int) -> None:
    for seed in range(start, start + 20):
        proved(odd_text(seed))


@pytest.mark.parametrize("seed", range(200, 216))
def test_every_mend_that_is_offered_can_be_made(seed: int) -> None:
    check_mends(proved(odd_text(seed)), most=12)


@pytest.mark.parametrize("seed", range(250, 256))
def test_every_preset_is_followed(seed: int) -> None:
    check_traces(proved(odd_text(seed)))


@pytest.mark.parametrize("seed", range(300, 318))
def test_a_proof_that_goes_on_is_as_good_as_a_fresh_one(seed: int) -> None:
    rng = random.Random(seed)
    document = odd_document(rng)
    state = proved(document_text(document))
    for _ in range(6):
        document = edited(document, rng)
        state = check_edit(state, document_text(document))


@pytest.mark.parametrize("file", [ORCHARD, AS_FOUND], ids=lambda file: file.stem)
def test_an_edited_sample_is_proved_as_if_it_were_new(file) -> None:
    rng = random.Random(file.stem)
    document = plain(file)
    state = proved(document_text(document))
    for _ in range(2):
        document = edited(document, rng)
        state = check_edit(state, document_text(document))


@pytest.mark.parametrize("controller", ["it", "nobody"])
@pytest.mark.parametrize(
    "chart", ["braeburn-six", "bramley-delay", "spartan-adapter", "elstar-supply"]
)
def test_one_unit_and_nothing_else(controller: str, chart: str) -> None:
    proved(ONE_UNIT.format(controller, chart))


def test_a_preset_may_name_the_controller_itself() -> None:
    preset = '[[preset]]\nnumber = 1\nname = "x"\nit = { program = "1" }\n'
    state = proved(ONE_UNIT.format("it", "braeburn-six") + preset)
    assert state.case.run(state.case.rig.presets[0]).sending.items == ()


@pytest.mark.parametrize("ends", [("a", "a"), ("a", "b"), ("b", "a")])
def test_passive_adapters_in_a_ring(ends: tuple[str, str]) -> None:
    adapters = "".join(
        f'[[unit]]\nid = "{name}"\nchart = "spartan-adapter"\n' for name in ("p", "q")
    )
    sockets = list(opened(ONE_UNIT.format("it", "spartan-adapter")).rig.units["it"].chart.sockets)
    socket = dict(zip(("a", "b"), sockets, strict=True))
    plug = {"a": "din5", "b": "trs-3.5"}
    cables = "".join(
        f'[[cable]]\nfrom = "{one}.{socket[a]}"\nto = "{other}.{socket[b]}"\n'
        f'ends = "{plug[a]}/{plug[b]}"\n'
        for one, other, a, b in (("p", "q", *ends), ("q", "p", *ends))
    )
    proved(ONE_UNIT.format("it", "braeburn-six") + adapters + cables)


@pytest.mark.parametrize("seed", range(3))
def test_rows_and_comments_change_no_finding(seed: int) -> None:
    rng = random.Random(seed)
    text = AS_FOUND.read_text(encoding="utf-8") if seed == 0 else odd_text(seed)
    rows = text.splitlines()
    for place in sorted(rng.sample(range(len(rows)), 20), reverse=True):
        if rows[place].startswith("[["):
            rows[place:place] = ["", "# a remark"]
    spread = "\n".join(["# a first row", *rows, ""])
    assert proved(spread).proof == proved(text).proof


def test_a_further_preset_leaves_the_ids_of_the_others_as_they_were() -> None:
    document = plain(AS_FOUND)
    before = {one.id for one in proved(document_text(document)).proof.findings}
    document["preset"] = [{"number": 99, "name": "Spare"}, *document["preset"]]
    after = {one.id for one in proved(document_text(document)).proof.findings}
    assert before <= after
