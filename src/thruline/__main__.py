"""`python -m thruline`, and the command `thruline`."""

import os
from collections.abc import Mapping

from thruline.cli.main import run

QUICKER: Mapping[str, str] = {
    "OPENBLAS_NUM_THREADS": "1",
    "PYDANTIC_DISABLE_PLUGINS": "__all__",
}
"""What libraries are told before they are loaded, unless the person has told them otherwise.

numpy would start a thread for each processor, for algebra that is never asked for here (about 40 ms
of a process), and pydantic would look through everything installed for extensions (10 ms).
"""


def main() -> None:
    """Run the command line and leave with its exit code."""
    for name, value in QUICKER.items():
        os.environ.setdefault(name, value)
    raise SystemExit(run())


if __name__ == "__main__":
    main()
