"""What keeps a child process within the permissions of files, also where the tests run as root."""

import os
import shutil

import pytest

AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0
WITHIN = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"] if AS_ROOT else []
"""Words to put before those of the child: root's power over permissions is taken from it."""
KEPT = pytest.mark.skipif(
    AS_ROOT and shutil.which("setpriv") is None,
    reason="nothing is protected from the superuser, and there is no setpriv",
)
