"""The Stage page as one file, to be kept on a telephone or a stick: it needs no server, no network.

Script, style and set stand in it. Its policy lets it run these by what they are, and nothing else.
"""

import re
from base64 import b64encode
from hashlib import sha256

from jinja2 import Environment, PackageLoader
from markupsafe import Markup

from thruline.app.frame import Json
from thruline.workbench.look import colours_css

SCRIPTS = ("make.js", "stage-set.js", "stage-file.js")
"""What the page runs, each after those that it imports: together they are one script."""
_PAGES = Environment(loader=PackageLoader("thruline.workbench"), autoescape=True, trim_blocks=True)
_IMPORT = re.compile(r"^import .*;\n", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=async |class |const |function |let )", re.MULTILINE)


def stage_file(shown: Json, *, made: str) -> str:
    """The page with a set, as `stage_json` gives it, that was taken on the day `made`."""
    script = "".join(_EXPORT.sub("", _IMPORT.sub("", _static(name))) for name in SCRIPTS)
    style = colours_css() + _static("stage.css")
    return _PAGES.get_template("stage-file.html").render(
        room={"name": shown["rig"]},
        status={"rig": shown["rig"]},
        held=shown,
        made=made,
        policy=_policy(script, style),
        script=_as_it_is(script),
        style=_as_it_is(style),
    )


def _static(name: str) -> str:
    """What the workbench serves under this name."""
    return PackageLoader("thruline.workbench", "static").get_source(_PAGES, name)[0]


def _as_it_is(text: str) -> Markup:
    """The program's own text, as it stands in its files; nothing of a rig is in it."""
    return Markup(text)  # noqa: S704 - as said


def _policy(script: str, style: str) -> str:
    return (
        f"default-src 'none'; script-src '{_hash(script)}'; style-src '{_hash(style)}'; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"
