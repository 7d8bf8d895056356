#!/usr/bin/env python3
"""One command for a fresh machine: `python3 start.py demo`.

Whatever Python is called reads this file first, however old it is, so that it can be told kindly
what is missing. It therefore holds nothing newer than Python 2; the work is in tools/house.py.
"""

import importlib
import os
import sys

OLDEST = (3, 11)

TOO_OLD = """\
thruline needs Python 3.11 or newer, and this is Python %d.%d (%s).
Install a newer Python beside it, then call that one by name, for example:
    python3.11 start.py demo
"""


def main(words):
    if sys.version_info < OLDEST:
        sys.stderr.write(TOO_OLD % (sys.version_info[0], sys.version_info[1], sys.executable))
        return 2
    sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
    return importlib.import_module("tools.house").main(words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
