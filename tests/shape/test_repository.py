"""What is committed holds no address of this machine or of a package registry."""

import re
import shutil
import subprocess

import pytest

from tools.environment import ROOT

# An index or a file server, as lock files and installer settings name them.
REGISTRY = re.compile(
    r"https?://\S*(?:/simple\b|/packages/|pypi|pythonhosted|registry|mirror)", re.IGNORECASE
)
# Somebody's home or a temporary folder: it exists on one machine only.
ONE_MACHINE = re.compile(r"(?<![\w./-])(?:/home/\w+|/root|/Users/\w+|/tmp|[A-Z]:\\Users)\b")
CONSTRAINT = re.compile(r"[a-z0-9-]+==[\w.+!-]+( ; .+)?")


def tracked() -> dict[str, str]:
    """The text of every tracked file; pictures and the like are left out."""
    listed = subprocess.run(
        ["git", "ls-files", "-z"],  # noqa: S607 - git is looked up like any developer's
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    texts = {}
    for name in filter(None, listed.stdout.split("\0")):
        content = (ROOT / name).read_bytes() if (ROOT / name).is_file() else b"\0"
        if b"\0" not in content:
            texts[name] = content.decode("utf-8", errors="replace")
    return texts


@pytest.mark.skipif(not (ROOT / ".git").exists(), reason="not a repository: an unpacked archive")
@pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")
@pytest.mark.parametrize("address", [REGISTRY, ONE_MACHINE], ids=["registry", "machine"])
def test_no_address_is_committed(address: re.Pattern[str]) -> None:
    found = [
        f"{name}:{text.count(chr(10), 0, hit.start()) + 1} {hit[0]}"
        for name, text in tracked().items()
        if name != "tests/shape/test_repository.py"
        for hit in address.finditer(text)
    ]
    assert not found, "it would be wrong anywhere else:\n" + "\n".join(found)


def test_constraints_are_names_and_versions_only() -> None:
    rows = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    odd = [row for row in rows if not CONSTRAINT.fullmatch(row)]
    assert not odd, "remake it with `python -m tools.write_constraints`:\n" + "\n".join(odd)
