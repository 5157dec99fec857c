"""The last net: how a fault of the program itself is told, in one sentence and without a traceback.

Imports nothing of ours and nothing of anybody's, since what is missing may be what is told of.
"""

_LONGEST = 200
"""Characters of an error's own words that are told."""
_DISTRIBUTIONS = {
    "_ruamel_yaml": "ruamel.yaml.clib",
    "ruamel": "ruamel.yaml",
    "jsonschema_rs": "jsonschema-rs",
    "msgspec": "msgspec",
    "jsonschema": "jsonschema",
    "click": "click",
    "mashwright": "mashwright",
    "mashwright_schema": "mashwright",
}
"""What brings a module, by the first word of its name."""


def in_words(error: BaseException) -> str:
    """An error's name and its own words, on one line and not too long, whatever its class makes of them."""
    try:
        text = " ".join(str.__str__(str(error)).split())
    except BaseException:  # noqa: BLE001  (a stranger's error may fail even at saying what it is)
        text = ""
    name = type.__dict__["__name__"].__get__(type(error))[:_LONGEST]
    short = text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."
    return f"{name}: {short}" if short else name


def where(error: BaseException) -> str:
    """The module and line of ours in which an error came up, such as `` at mashwright.cli.review:120``; or ""."""
    place, trace = "", error.__traceback__
    while trace is not None:
        module = trace.tb_frame.f_globals.get("__name__")
        if isinstance(module, str) and module.split(".", 1)[0] == "mashwright":
            place = f" at {module}:{trace.tb_lineno}"
        trace = trace.tb_next
    return place


def of_file(error: BaseException, what: str, deed: str = "reviewed") -> str:
    """What is told of a file that the program itself could not take.

    Args:
        what: the word for it, such as recipe.
        deed: what could not be done with it.
    """
    return f"{_fault(error)} kept this {what} from being {deed}; report this line and the {what} to those who make it"


def of_run(error: BaseException) -> str:
    """What is told where the program itself ended the whole run."""
    return f"{_fault(error)} ended this run; report this line, the command and the recipe to those who make it"


def _fault(error: BaseException) -> str:
    from importlib.metadata import PackageNotFoundError, version  # on the way to a sentence of this kind alone

    try:
        number = version("mashwright")
    except PackageNotFoundError:
        number = "of an unknown version"
    return f"a fault of mashwright {number} ({in_words(error)}{where(error)})"


def missing_part(error: BaseException) -> str | None:
    """What to install where a part that the program needs cannot be imported; None where the error is another."""
    if not isinstance(error, ImportError) or not isinstance(error.name, str):
        return None
    distribution = _DISTRIBUTIONS.get(error.name.split(".", 1)[0])
    if distribution is None:
        return None
    again = f"python -m pip install --force-reinstall {distribution}"
    return f"{distribution}, which mashwright needs, cannot be loaded ({in_words(error)}); install it again: {again}"
