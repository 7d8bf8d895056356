"""The letters that printed papers are set in, as drawings name them."""

import re

FACES = "Source Sans Pro"
_NAMED = re.compile(r'font-family="[^"]*"')
_SIZE = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


def for_print(svg: str) -> tuple[str, float, float]:
    """A drawing in the letters of papers, with its width and height."""
    size = _SIZE.search(svg)
    width, height = map(float, size.groups()) if size else (1.0, 1.0)
    return _NAMED.sub(f'font-family="{FACES}"', svg), width, height
