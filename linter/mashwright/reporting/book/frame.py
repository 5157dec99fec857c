"""What every page stands in: its template, its style and script, and the policy that lets a browser take only these."""

from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.resources import files
from typing import TYPE_CHECKING

from markupsafe import Markup

from mashwright.brew.board import number
from mashwright.reporting.book.gate import finalize

if TYPE_CHECKING:
    from jinja2 import Environment

_HERE = "mashwright.reporting.book"


@cache
def _static(name: str) -> Markup:
    text = files(_HERE).joinpath("static", name).read_text(encoding="utf-8")
    return Markup(text)  # noqa: S704  (our own file)


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


@cache
def policy(*, script: bool) -> str:
    """The Content-Security-Policy of a page: its own style and script by their hashes, and nothing from anywhere."""
    scripts = _hash(_static("book.js")) if script else "'none'"
    return (
        f"default-src 'none'; style-src {_hash(_static('book.css'))}; script-src {scripts};"
        " base-uri 'none'; form-action 'none'"
    )


@cache
def environment() -> "Environment":
    """The templates: each text goes through the gate and is escaped, and a name that is misspelt is an error."""
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    def source(name: str) -> str:
        return files(_HERE).joinpath("templates", name).read_text(encoding="utf-8")

    made = Environment(
        loader=FunctionLoader(source),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=finalize,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
    )
    made.filters["number"] = _number
    return made


def _number(value: float, digits: int = 3) -> str:
    return str(number(value, digits))


def render(template: str, *, script: bool = False, **view: object) -> bytes:
    """A page, UTF-8.

    Args:
        template: its file's name.
        script: whether it has the script that sorts and filters.
        view: what it shows.
    """
    page = environment().get_template(template)
    scripts = _static("book.js") if script else Markup("")
    text = page.render(policy=policy(script=script), css=_static("book.css"), js=scripts, **view)
    return text.encode("utf-8", "backslashreplace")
