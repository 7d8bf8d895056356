"""The JSON Schemas of both kinds of document, made from the models and shipped with the program."""

import json
from collections.abc import Iterator

from thruline.document.chart_shape import ChartShape
from thruline.document.rig_shape import RigShape
from thruline.document.schema import json_schema


def texts() -> Iterator[tuple[str, str]]:
    """Each schema: the name of its file, and its text."""
    for name, model in (("rig", RigShape), ("chart", ChartShape)):
        made = json_schema(model, title=f"thruline {name} document")
        yield f"{name}.schema.json", json.dumps(made, indent=2, ensure_ascii=False) + "\n"
