"""Choose the versions of all libraries: `.venv/bin/python -m tools.write_constraints [--upgrade]`.

Writes constraints.txt: names and versions for every system, and no address of a registry, so that
it holds behind any mirror. Versions already chosen stay unless they no longer fit or `--upgrade`
is given. Needs the network, and `pip install uv` in the environment first: uv
chooses for all systems at once, which pip cannot.
"""

import subprocess
import sys
from pathlib import Path

from tools.environment import ROOT

COMMAND = (
    str(Path(sys.executable).with_name("uv")),
    *("pip", "compile", "--quiet", "--universal", "--all-extras"),
    *("--no-header", "--no-annotate", "--no-emit-index-url", "--no-emit-find-links"),
    *("pyproject.toml", "--output-file", "constraints.txt"),
)


def main(options: list[str]) -> int:
    """Run uv on the project's settings; its exit code, or 3 when there is no uv."""
    try:
        return subprocess.call([*COMMAND, *options], cwd=ROOT)
    except FileNotFoundError:
        print("There is no uv in .venv yet:  .venv/bin/pip install uv", file=sys.stderr)
        return 3


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
