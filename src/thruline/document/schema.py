"""JSON Schema made from a model, so that editors complete and check a document as it is typed."""

from typing import Any

from pydantic import BaseModel

DRAFT = "https://json-schema.org/draft/2020-12/schema"
"""The name of the dialect; nothing is fetched from it."""


def json_schema(model: type[BaseModel], *, title: str | None = None) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a document, with the model's descriptions and examples."""
    made = model.model_json_schema()
    return {"$schema": DRAFT, **made, "title": title or made.get("title", model.__name__)}
