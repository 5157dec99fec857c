"""The pages that are the same in every book: one a rule, the format, the words of the trade and the units."""

from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from mashwright.ingredients.bibliography import source, sources
from mashwright.measures.unit_table import ROWS, USUAL
from mashwright.reporting.book.frame import render
from mashwright.reporting.book.places import link, name_of
from mashwright.reporting.format_pages import topic, topics
from mashwright.reporting.glossary import TERMS
from mashwright.reporting.pages import STAGES
from mashwright.reviewing.plugins import Rule, example_of
from mashwright.reviewing.results import RuleInfo

WORDS = "words.html"
FORMAT = "format.html"
RULES = "rules.html"
_TOPIC_COLUMNS = 64


def rule_place(rule_id: str) -> str:
    """Where the page of a rule lies."""
    return f"rules/{name_of(rule_id)}.html"


class RulePage(Struct, frozen=True):
    """A rule as ``explain`` tells it.

    Attributes:
        text: paragraphs; the second value says that one is laid out already.
        settings: name, usual value and bounds, keys of the sources.
        works: key and citation of what is cited.
        example: a recipe in which it finds nothing, one in which it does, and the finding; None for no example.
    """

    id: str
    question: str
    text: tuple[tuple[str, bool], ...]
    settings: tuple[tuple[str, str, str], ...]
    says: tuple[str, ...]
    works: tuple[tuple[str, str], ...]
    example: tuple[str, str, str] | None


def rule_page(info: RuleInfo, rule: Rule | None, title: str) -> bytes:
    """The page of a rule.

    Args:
        info: its text.
        rule: with its settings and sentences; None for one of reading.
        title: of the book.
    """
    limits = rule.limits.limits() if rule is not None else {}
    settings = []
    for key, limit in limits.items():
        unit = f" {limit.unit}" if limit.unit else ""
        settings.append((key, f"{limit.default:g}{unit} (may be {limit.low:g} to {limit.high:g}{unit})", limit.source))
    known = {one.key for one in sources()}
    keys = [piece.split("]", 1)[0] for piece in info.page.split("[")[1:]]
    keys += [key for limit in limits.values() for key in limit.source.split()]
    view = RulePage(
        info.id,
        info.question,
        tuple(_paragraphs(info.page)),
        tuple(settings),
        tuple(text.lstrip(",: ") for text in rule.says.values()) if rule is not None else (),
        tuple((key, source(key).citation) for key in dict.fromkeys(keys) if key in known),
        example_of(info.id, rule),
    )
    return render("rule.html", p=view, book=title, **links(rule_place(info.id)))


def links(page: str) -> dict[str, Any]:
    """The links that stand at the top of every page."""
    return {
        "index": link(page, "index.html"),
        "rules": link(page, RULES),
        "format": link(page, FORMAT),
        "words": link(page, WORDS),
    }


def _paragraphs(text: str) -> Iterator[tuple[str, bool]]:
    for number, block in enumerate(text.strip().split("\n\n")):
        if not number:  # the question, which is the title
            continue
        laid_out = block.startswith((" ", "-"))
        yield (block if laid_out else " ".join(block.split())), laid_out


def rules_page(infos: tuple[RuleInfo, ...], title: str) -> bytes:
    """All rules by the stages of the brew day."""
    stages: dict[str, list[tuple[str, str, str]]] = {}
    for info in infos:
        row = (info.id, link(RULES, rule_place(info.id)), info.question)
        stages.setdefault(info.stage, []).append(row)
    order = sorted(stages, key=lambda one: (list(STAGES).index(one) if one in STAGES else len(STAGES), one))
    view = tuple((STAGES.get(one, one), tuple(stages[one])) for one in order)
    return render("rules.html", stages=view, book=title, **links(RULES))


def format_page(title: str) -> bytes:
    """The sections of a recipe and of a brewhouse, as ``explain`` tells them."""
    told = tuple((name, _without_title(topic(name, _TOPIC_COLUMNS) or "")) for name in topics())
    return render("format.html", topics=told, book=title, **links(FORMAT))


def _without_title(text: str) -> str:
    return "\n".join(text.split("\n")[3:])


def words_page(title: str) -> bytes:
    """The words of the trade, and the units of each kind with their other spellings."""
    units = []
    for kind, rows in ROWS.items():
        usual = rows[: USUAL.get(kind, len(rows))]
        told = [", ".join(one for one in row[0] if one) for row in usual]
        if any(told):
            units.append((kind.value, tuple(one for one in told if one)))
    terms = tuple(sorted(TERMS.items()))
    return render("words.html", terms=terms, units=tuple(units), book=title, **links(WORDS))
