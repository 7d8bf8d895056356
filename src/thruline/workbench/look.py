"""The colours of the pages: light, dark where the system or the person wants it."""

from thruline.papers.colours import DARK, LIGHT, Palette, variables


def colours_css() -> str:
    """Both palettes as custom properties; `data-look` on the page overrides the system."""
    light, dark = _rows(LIGHT), _rows(DARK)
    return (
        f":root{{color-scheme:light;{light}}}\n"
        f"@media(prefers-color-scheme:dark){{:root:not([data-look=light])"
        f"{{color-scheme:dark;{dark}}}}}\n"
        f":root[data-look=dark]{{color-scheme:dark;{dark}}}\n"
    )


def _rows(palette: Palette) -> str:
    return "".join(f"{name}:{colour};" for name, colour in variables(palette).items())
