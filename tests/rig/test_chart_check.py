import pytest

from tests.rig.charts import addresses, full_chart, full_controller, problems


@pytest.mark.parametrize("document", [full_chart(), full_controller()])
def test_a_chart_that_fits_together_has_no_problem(document):
    assert problems(document) == []


@pytest.mark.parametrize(
    "key", ["socket", "output", "setting", "control", "send"], ids=lambda key: key
)
def test_entries_of_one_name_are_told(key):
    document = full_chart()
    twin = document[key][0]
    document[key] = [*document[key], twin]
    name = twin.get("id") or twin.get("socket") or twin.get("what")
    assert f"{key}[{name}#2]" in addresses(document)


@pytest.mark.parametrize(
    ("manufacturer", "is_right"),
    [([125], True), ([0, 33, 9], True), ([0], False), ([1, 2], False), ([5, 0, 0], False)],
)
def test_a_manufacturer_has_one_byte_or_three(manufacturer, is_right):
    identity = {"manufacturer": manufacturer, "family": [1, 0], "member": [0, 0]}
    found = addresses(full_chart(identity=identity))
    assert found == ([] if is_right else ["identity.manufacturer"])


def test_a_pedal_needs_a_controller():
    assert "pedal[exp]" in addresses(full_controller(controller=None))


def test_the_longest_pause_holds_a_step():
    controller = {"presets": 10, "pauses": {"step-ms": 50, "longest-ms": 20}}
    assert addresses(full_controller(controller=controller)) == ["controller.pauses"]


def test_a_problem_says_what_to_do():
    controller = {"presets": 10, "pauses": {"step-ms": 50, "longest-ms": 20}}
    ((_, says),) = problems(full_controller(controller=controller))
    assert "20 ms" in says
    assert "exchange them" in says
