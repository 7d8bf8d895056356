"""The world is touched in one package, and a person is spoken to in one module."""

import ast
from collections.abc import Container, Iterator

from tools.measure_shape import SOURCES, Module, modules

SPEAKS = "cli/show.py"
TOUCHES = "outside/"

# What opens, reads, writes, moves or removes a file when called on one.
FILE_VERBS = {
    "mkdir", "read_bytes", "read_text", "rename", "rmdir", "touch", "unlink", "write_bytes",
    "write_text",
}  # fmt: skip

MODULES = modules()


def calls(module: Module, *, plain: Container[str], on_a_thing: Container[str]) -> Iterator[str]:
    """The calls in a module of functions by their bare name, or of methods by theirs."""
    for node in module.nodes(ast.Call):
        match node.func:
            case ast.Name(id=name) if name in plain:
                yield f"{module.place}:{node.lineno} {name}("
            case ast.Attribute(attr=name) if name in on_a_thing:
                yield f"{module.place}:{node.lineno} .{name}("


def inner(module: Module) -> str:
    return module.file.relative_to(SOURCES).as_posix()


def test_only_show_speaks() -> None:
    found = [
        call
        for module in MODULES
        if inner(module) != SPEAKS
        for call in calls(module, plain={"print", "input"}, on_a_thing=())
    ]
    assert not found, f"an answer is returned, and {SPEAKS} shows it:\n" + "\n".join(found)


def test_only_outside_touches_files() -> None:
    found = [
        call
        for module in MODULES
        if not inner(module).startswith(TOUCHES)
        for call in calls(module, plain={"open"}, on_a_thing=FILE_VERBS)
    ]
    assert not found, f"files are read and written in {TOUCHES} only:\n" + "\n".join(found)
