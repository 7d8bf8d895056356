import ast
import json
import subprocess
import sys
from pathlib import Path

import pytest

import thruline

ALONE = """
import json, sys
before = set(sys.modules)
import thruline
print(json.dumps(sorted(set(sys.modules) - before)))
"""


def test_importing_it_loads_nothing():
    done = subprocess.run(
        [sys.executable, "-I", "-c", ALONE], capture_output=True, text=True, check=True
    )
    loaded = set(json.loads(done.stdout))
    assert {name for name in loaded if name.startswith("thruline")} == {"thruline"}
    assert not loaded & {"typing", "re", "pydantic", "numpy", "click", "importlib.metadata"}


def test_every_public_name_is_there():
    for name in thruline.__all__:
        assert getattr(thruline, name) is getattr(thruline, name)
    assert dir(thruline) == sorted(thruline.__all__)


def test_a_name_that_is_not_there():
    with pytest.raises(AttributeError, match="thruline has no nonsense; it has CableSet"):
        _ = thruline.nonsense


def test_type_checkers_see_the_same_names():
    stub = ast.parse(Path(thruline.__file__).with_suffix(".pyi").read_text(encoding="utf-8"))
    seen = {"__version__"}
    for node in ast.walk(stub):
        if isinstance(node, ast.ImportFrom):
            seen |= {name.asname for name in node.names}
            for name in node.names:
                assert thruline._PLACES[name.name] == node.module.removeprefix("thruline.")
    assert seen == set(thruline.__all__)
    listed = next(node for node in stub.body if isinstance(node, ast.Assign))
    assert ast.literal_eval(listed.value) == thruline.__all__
