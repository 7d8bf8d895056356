"""Labels for both ends of every cable, as one page to print and cut."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One end of a cable: where it goes, where the other end is, and what a code would say."""

    number: str
    kind: str
    here: str
    there: str
    plug: str
    length: int | None
    code: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Labels:
    """All labels of a rig, two for each cable; `codes` adds a QR code to each."""

    rig: str
    labels: tuple[Label, ...]
    codes: bool = False


def labels_html(sheet: Labels, *, codes: bool = False) -> str:
    """The page; it needs no script, no other file, no network. `codes` adds a QR code to each."""
    import jinja2  # noqa: PLC0415 - heavy, and only for pages

    pages = jinja2.Environment(
        loader=jinja2.PackageLoader("thruline", "papers"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
    )
    drawn = [qr_svg(one.code) if codes else "" for one in sheet.labels]
    return pages.get_template("labels.html.j2").render(
        sheet=sheet, labels=list(zip(sheet.labels, drawn, strict=True))
    )


def qr_svg(text: str) -> str:
    """A QR code (ISO/IEC 18004) that says the text, as SVG markup."""
    import segno  # noqa: PLC0415 - only where codes are wished

    code = segno.make(text, error="m", micro=False)
    drawn: str = code.svg_inline(border=1, omitsize=True, svgclass="code", lineclass=None)
    return drawn
