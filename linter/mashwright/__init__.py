"""Mashwright: does the brewing sums of a recipe and says, line by line, what will not work and what mends it.

The same as a library: ``review(paths)``, ``review_text(text, name)`` and ``figures_of(text)`` give frozen values;
``try_rule`` helps to test a rule of your own. Nothing is loaded until it is asked for.
"""

from os.path import lexists

TYPE_CHECKING = False  # as typing has it; importing that costs time, and nothing may be imported before ``import_path``
if TYPE_CHECKING:
    from collections.abc import Iterable
    from concurrent.futures import Executor
    from types import ModuleType

    from mashwright.finding import Level
    from mashwright.reviewing.results import Review
    from mashwright.reviewing.sheet import Sheet

__version__ = "0.1.0"
__all__ = ["figures_of", "review", "review_text", "try_rule"]


def review(
    paths: "Iterable[str]",
    *,
    today: str | None = None,
    stop_at: "Level | None" = None,
    executor: "Executor | None" = None,
) -> "Review":
    """Review files and folders.

    Args:
        paths: files and folders; a folder's recipes are found as the command finds them, and one without any is among
            the review's ``faults``.
        today: YYYY-MM-DD for suppressions that end; the UTC date unless said otherwise.
        executor: of concurrent.futures, to review by other processes or machines; their working folder and files must
            be the same. In this process unless said otherwise.
        stop_at: from which level ``Review.failed`` is true; by default what each brewhouse says, else error.

    Raises:
        ConfigurationError: the rules that are installed contradict each other.
        FileNotFoundError: a path is not there.
        ValueError: today is no date.
    """
    from mashwright.reviewing.collection import Collection
    from mashwright.reviewing.settings import Run

    named = tuple(paths)
    for path in named:
        if not lexists(path):
            raise FileNotFoundError(path)
    collection = Collection(Run(_day(today), stop_at))
    return collection.finished(list(collection.paths(named, executor)))


def review_text(
    text: str,
    name: str = "recipe.yaml",
    *,
    brewhouse: str | None = None,
    remedies: bool = True,
    today: str | None = None,
) -> "Review":
    """Review one text, saved or not.

    Args:
        text: of a recipe; or of a brewhouse, where the name is that of one.
        name: what reports call it; it decides which brewhouse.yaml is nearest, unless one is given.
        brewhouse: the text of the brewhouse that counts, such as one in an editor ("{}" for one that says
            nothing). No file is looked at then, and what is wrong with it comes first, under ``brewhouse.yaml``.
        remedies: whether to look for what mends a finding, which takes longer than to find it.
        today: as for ``review``.

    Raises:
        ConfigurationError: the rules that are installed contradict each other.
        ValueError: today is no date.
    """
    from mashwright.reviewing.collection import Collection
    from mashwright.reviewing.houses import unsaved
    from mashwright.reviewing.settings import Run

    given = unsaved(brewhouse) if brewhouse is not None else None
    collection = Collection(Run(_day(today), remedies=remedies), given=given)
    return collection.finished(list(collection.text(text, name)))


def figures_of(text: str, name: str = "recipe.yaml", *, brewhouse: str | None = None) -> "Sheet":
    """Every figure of a recipe, with its working; what cannot be computed says what is missing.

    Args:
        text: of the recipe, saved or not.
        name, brewhouse: as for ``review_text``.

    Raises:
        ConfigurationError: the rules that are installed contradict each other; or the program cannot take the
            brewhouse.
    """
    from mashwright.reviewing.figuring import sheet_of_loaded

    return sheet_of_loaded(text, name, brewhouse)


def try_rule(rule: "ModuleType", *recipes: str, brewhouse: str = "", mends: bool = False) -> list[str]:
    """What one rule finds in a recipe, for its tests: ``line:column: level: message``.

    Args:
        rule: the rule's module.
        recipes: one text; or several up to four, for a rule about the collection.
        brewhouse: the text of a brewhouse.yaml with settings of this rule, if it needs one.
        mends: below each finding, what mends it (``mend it: ...``, ``or: ...``), and what was tried and is not offered,
            with what speaks against it.

    Raises:
        ValueError: the module is no rule, or the brewhouse has settings that it does not take.
    """
    from mashwright.reviewing.trying import tried

    return tried(rule, *recipes, brewhouse=brewhouse, mends=mends)


def _day(today: str | None) -> str:
    from datetime import UTC, date, datetime

    if today is None:
        return datetime.now(UTC).date().isoformat()
    try:
        return date.fromisoformat(today).isoformat()
    except ValueError:
        raise ValueError(f"today is {today!r}, no date; write it as 2027-12-31") from None
