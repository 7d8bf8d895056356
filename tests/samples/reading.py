"""The packaged samples, read straight from their files."""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import thruline.samples
from thruline.document.chart_shape import ChartShape
from thruline.document.rig_shape import RigShape
from thruline.rig.chart import Chart
from thruline.rig.read_chart import read_chart
from thruline.rig.resolve import resolve
from thruline.rig.whole import Rig

SAMPLES = Path(thruline.samples.__path__[0])
CHART_FILES = sorted((SAMPLES / "charts").glob("*.toml"))
RIG_FILES = sorted(SAMPLES.glob("*/*.rig.toml"))
ORCHARD = SAMPLES / "orchard-street" / "orchard-street.rig.toml"
AS_FOUND = SAMPLES / "orchard-street" / "as-found.rig.toml"
FIRST_BOARD = SAMPLES / "first-board" / "first-board.rig.toml"


def plain(file: Path) -> dict[str, Any]:
    """A document as plain data."""
    return tomllib.loads(file.read_text(encoding="utf-8"))


@cache
def shapes() -> dict[str, ChartShape]:
    """Every chart document by id."""
    found = (ChartShape.model_validate(plain(file)) for file in CHART_FILES)
    return {shape.chart.id: shape for shape in found}


@cache
def charts() -> dict[str, Chart]:
    """Every chart by id."""
    return {chart_id: read_chart(shape) for chart_id, shape in shapes().items()}


@cache
def rig(file: Path) -> Rig:
    """A sample rig with its charts."""
    return resolve(RigShape.model_validate(plain(file)), charts())
