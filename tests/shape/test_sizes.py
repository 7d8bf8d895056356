"""Nothing grows past what a reader can hold; `python -m tools.measure_shape` shows the numbers."""

import pytest

from tools.measure_shape import Module, modules

# A file longer than this is two ideas: in well-kept code nine files in ten are shorter.
MOST_ROWS = 400
# A rule is read whole, beside its example, on one screen and a half.
MOST_ROWS_OF_A_RULE = 180
# A function is read without scrolling; nine in ten have fewer than twenty.
MOST_CODE_ROWS = 45
# Past six, some of them belong together in a type of their own.
MOST_PARAMETERS = 6
# A reader of a call cannot tell a fourth value without a name from the third. (A function used in
# its own module only is read beside its calls.)
MOST_BY_POSITION = 3

MODULES = modules()


def allowed_rows(module: Module) -> int:
    return MOST_ROWS_OF_A_RULE if "/proof/rules/" in module.place else MOST_ROWS


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.place)
def test_a_module_is_one_idea(module: Module) -> None:
    assert module.rows <= allowed_rows(module), (
        f"{module.place} has {module.rows} rows, and {allowed_rows(module)} is the most: "
        "move one of its ideas into a module of its own"
    )


def test_a_function_is_read_at_once() -> None:
    long = [
        f"{module.place}:{function.row} {function.name} has {function.code_rows} code rows"
        for module in MODULES
        for function in module.functions
        if function.code_rows > MOST_CODE_ROWS
    ]
    assert not long, f"split at its steps, at most {MOST_CODE_ROWS} code rows:\n" + "\n".join(long)


def test_a_function_takes_few_parameters() -> None:
    many = [
        f"{module.place}:{function.row} {function.name} takes {function.parameters}"
        for module in MODULES
        for function in module.functions
        if function.parameters > MOST_PARAMETERS
    ]
    assert not many, f"at most {MOST_PARAMETERS}, group what belongs together:\n" + "\n".join(many)


def test_further_parameters_are_given_by_name() -> None:
    unnamed = [
        f"{module.place}:{function.row} {function.name}"
        for module in MODULES
        for function in module.functions
        if function.by_position > MOST_BY_POSITION and not function.name.startswith("_")
    ]
    assert not unnamed, "put `*` behind the second parameter of:\n" + "\n".join(unnamed)
