"""Pages of HTML from the templates that lie here, in the colours of all papers."""

from thruline.papers.colours import DARK, LIGHT, variables


def filled(template: str, **about: object) -> str:
    """A page that needs nothing else; whatever a template is not given is an error."""
    import jinja2  # noqa: PLC0415 - heavy, and only for pages

    pages = jinja2.Environment(
        loader=jinja2.PackageLoader("thruline", "papers"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
    )
    return pages.get_template(template).render(
        **about, light=variables(LIGHT), dark=variables(DARK)
    )
