"""One word for one thing: the words of the trade keep their meaning in the code."""

import ast
import re
from collections.abc import Iterator

from tools.measure_shape import SOURCES, Module, modules

# Words that would be a second name for a thing, or say nothing, and what to say instead.
INSTEAD = {
    "device": "unit",
    "dir": "folder",
    "directory": "folder",
    "dirname": "folder",
    "filename": "file",
    "filepath": "file",
    "fix": "mend",
    "helper": "what it does",
    "lineno": "row",
    "manager": "what it does",
    "patch": "program",
    "pin": "contact",
    "util": "what it does",
}

# The byte stream is named as the MIDI specification names it: there a unit is a device.
AS_THE_STANDARD_SAYS = "midi"

# Here no real port is known yet, so nothing can rightly be called one.
BEFORE_PORTS = ("base", "compose", "document", "path", "proof", "rig", "sameness", "timing")

MODULES = modules()


def stage(module: Module) -> str:
    """The package of a module: `rig` for `rig/cable.py`."""
    return module.file.relative_to(SOURCES).parts[0]


def names(module: Module) -> Iterator[tuple[str, int]]:
    """Every name that a module gives to something, and the row where it does."""
    for node in module.nodes(ast.AST):
        match node:
            case ast.FunctionDef(name=name) | ast.ClassDef(name=name):
                yield name, node.lineno
            case ast.arg(arg=name) | ast.Name(id=name, ctx=ast.Store()):
                yield name, node.lineno


def words(name: str) -> list[str]:
    """The words in an identifier: `MidiOut` and `midi_out` are both midi, out.

    A name between double underscores is Python's own and has none of ours.
    """
    if name.startswith("__") and name.endswith("__"):
        return []
    return [word.lower() for word in re.findall(r"[A-Z]?[a-z]+|[A-Z]+", name)]


def test_words_of_an_identifier() -> None:
    assert words("MidiOut") == words("midi_out") == words("_MIDI_OUT") == ["midi", "out"]
    assert words("__dir__") == []


def test_no_second_name_for_a_thing() -> None:
    found = [
        f'{module.place}:{row} {name}: not "{word}" but "{INSTEAD[word]}"'
        for module in MODULES
        if stage(module) != AS_THE_STANDARD_SAYS
        for name, row in names(module)
        for word in words(name)
        if word in INSTEAD
    ]
    assert not found, "\n" + "\n".join(found)


def test_a_path_is_a_midi_path() -> None:
    found = [
        f"{module.place}:{node.lineno} {node.arg}"
        for module in MODULES
        for node in module.nodes(ast.arg)
        if "path" in words(node.arg)
        and node.annotation is not None
        and re.search(r"\bPath\b", ast.unparse(node.annotation))
    ]
    assert not found, "a file's path is `file`, a directory `folder`:\n" + "\n".join(found)


def test_a_port_is_a_real_port() -> None:
    found = [
        f"{module.place}:{row} {name}"
        for module in MODULES
        if stage(module) in BEFORE_PORTS
        for name, row in names(module)
        if "port" in words(name)
    ]
    assert not found, "say socket, input, output or face:\n" + "\n".join(found)
