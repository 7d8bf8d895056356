"""The import contracts in pyproject.toml name every package they are about."""

import re
import tomllib

from tools.environment import ROOT

# Whoever reads words, prints, or touches the world; samples hold no code.
JOINTS = {"bench_wiring", "binding", "desk_wiring", "wiring"}
NOT_CORE = {"cli", "outside", "questions", "samples", "workbench", *JOINTS}
# Their business is a document as much as a rig: reading one, and writing an edit into one.
READ_TEXT = {"app", "mend", "workshop"}


def contracts() -> dict[str, dict[str, list[str]]]:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return {one["name"]: one for one in settings["tool"]["importlinter"]["contracts"]}


def heights() -> list[set[str]]:
    """The packages of each height, the highest first."""
    return [
        set(re.findall(r"\w+", row)) for row in contracts()["Each package has its height"]["layers"]
    ]


def test_every_stage_is_kept_from_the_world() -> None:
    core = {f"thruline.{name}" for height in heights() for name in height - NOT_CORE}
    assert set(contracts()["The stages cannot reach the world"]["source_modules"]) == core


def test_every_stage_past_the_rig_is_kept_from_text() -> None:
    above = heights()[: heights().index({"rig"})]
    past = {f"thruline.{name}" for height in above for name in height - NOT_CORE - READ_TEXT}
    assert set(contracts()["Text ends at the rig"]["source_modules"]) == past


def test_no_package_is_optional() -> None:
    assert not [row for row in contracts()["Each package has its height"]["layers"] if "(" in row]
