"""Everything lies where a newcomer would look for it."""

import re
from pathlib import Path

import pytest

from tools.environment import ROOT
from tools.measure_shape import SOURCES, Module, modules

# A closed list: a sixth module here would be the drawer into which everything falls.
BASE = {"address", "edit", "errors", "measures", "spot"}

# Names that say nothing of what is inside, so that in the end everything is inside.
DRAWERS = {"common", "core", "helper", "helpers", "lib", "misc", "tools", "util", "utils"}

# Below this a module is a few names, and is tested by whoever uses them.
ROWS_WORTH_A_TEST = 25

# Rules are all held against their own examples by one harness; samples are data; the steps of the
# store are run one after the other.
TESTED_TOGETHER = ("outside/migrations/", "proof/rules/", "samples/")

PACKAGES = sorted(folder.parent for folder in SOURCES.glob("*/__init__.py"))
STAGES = [package for package in PACKAGES if package.name != "samples"]
MODULES = modules()


def mirror(module: Module) -> str:
    """Where the tests of a module lie: `tests/path/test_contacts.py` for `path/contacts.py`."""
    inner = module.file.relative_to(SOURCES)
    return (ROOT / "tests" / inner.parent / f"test_{inner.stem.strip('_')}.py").as_posix()


def test_base_stays_five_modules() -> None:
    found = {file.stem for file in (SOURCES / "base").glob("*.py")} - {"__init__"}
    assert found == BASE, (
        "base is a closed list: what a single stage needs belongs to that stage, "
        f"so {found ^ BASE} should not be a difference"
    )


def test_no_module_is_a_drawer() -> None:
    drawers = [module.place for module in MODULES if module.file.stem in DRAWERS]
    drawers += [str(folder) for folder in SOURCES.rglob("*") if folder.name in DRAWERS]
    assert not drawers, "name a module for the one thing in it:\n" + "\n".join(drawers)


def test_tests_lie_as_the_code_lies() -> None:
    lacking = [
        f"{module.place} wants {mirror(module).removeprefix(ROOT.as_posix() + '/')}"
        for module in MODULES
        if module.rows >= ROWS_WORTH_A_TEST
        and module.functions
        and not module.file.relative_to(SOURCES).as_posix().startswith(TESTED_TOGETHER)
        and not (ROOT / mirror(module)).exists()
    ]
    assert not lacking, "without tests of their own:\n" + "\n".join(lacking)


@pytest.mark.parametrize("stage", STAGES, ids=lambda stage: stage.name)
def test_a_stage_says_what_comes_in_and_what_goes_out(stage: Path) -> None:
    says = (stage / "__init__.py").read_text(encoding="utf-8")
    assert "Comes in: " in says, f"{stage.name}/__init__.py does not say what comes in"
    assert "Goes out: " in says, f"{stage.name}/__init__.py does not say what goes out"


def test_every_folder_of_code_is_a_package() -> None:
    folders = {module.file.parent for module in MODULES}
    bare = [str(folder) for folder in sorted(folders) if not (folder / "__init__.py").exists()]
    assert not bare, "say what it is in an __init__.py:\n" + "\n".join(bare)


def test_the_first_page_has_a_paragraph_for_every_package() -> None:
    page = (ROOT / "docs" / "index.md").read_text(encoding="utf-8")
    untold = [package.name for package in PACKAGES if f"\n**{package.name}** " not in page]
    assert not untold, f"docs/index.md has no paragraph that begins with: {untold}"


def test_the_table_for_newcomers_names_real_places() -> None:
    table = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
    named = re.findall(r"`((?:src|tools|tests|docs)/[^`<*]+)", table)
    gone = [name for name in named if not (ROOT / name).exists()]
    assert not gone, f"CONTRIBUTING.md sends people to {gone}, which is not there"
