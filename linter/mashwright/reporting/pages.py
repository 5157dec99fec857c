"""What ``explain`` prints: a rule's page, the list of rules, the bibliography."""

from collections.abc import Iterable, Iterator
from textwrap import indent

from mashwright.ingredients.bibliography import source, sources
from mashwright.reporting.words import wrapped
from mashwright.reviewing.plugins import Rule, example_of
from mashwright.reviewing.results import RuleInfo
from mashwright.rule import Limit

_NARROW = 60
"""Columns below which a rule's question stands under its name, not beside it."""


STAGES = {
    "recipe": "The recipe",
    "grist": "The grist",
    "mash": "The mash",
    "water": "The water",
    "kettle": "The kettle",
    "beer": "The beer",
    "package": "The package",
    "collection": "The collection",
    "": "Reading",
}
"""The stages of the brew day, as their rules are listed; the rules of others come last, under their distribution."""


def list_of(infos: Iterable[RuleInfo], width: int = 80, sections: tuple[str, ...] = ()) -> str:
    """Every rule with its question, by the stages of the brew day.

    Args:
        infos: the rules.
        width: in columns.
        sections: of the format that have a page too.
    """
    by_stage: dict[str, list[RuleInfo]] = {}
    for info in infos:
        by_stage.setdefault(info.stage, []).append(info)
    beside = max((len(info.id) for some in by_stage.values() for info in some), default=0) + 2
    rows: list[str] = []
    for stage in sorted(by_stage, key=lambda one: list(STAGES).index(one) if one in STAGES else len(STAGES)):
        rows += [*([""] if rows else []), f"{STAGES.get(stage, stage)}:"]
        rows += _listed(by_stage[stage], beside, width)
    if sections:
        rows += ["", "Pages of the format:"]
        rows += wrapped(", ".join(sections), width, "  ", "  ")
    rows += ["", *wrapped("mashwright explain NAME shows the page of a rule, a section, a unit or a word.", width)]
    return "\n".join(rows)


def _listed(infos: list[RuleInfo], beside: int, width: int) -> list[str]:
    if width < _NARROW:
        return [line for info in infos for line in (info.id, *wrapped(info.question, width, "  ", "  "))]
    return [line for info in infos for line in wrapped(info.question, width, f"{info.id:<{beside}}", " " * beside)]


def page(info: RuleInfo, rule: Rule | None, width: int = 80) -> str:
    """A rule's page: its text, its settings, what it can say, its sources and its two recipes."""
    pieces = [info.id, "=" * len(info.id), "", _wrapped(info.page, width)]
    settings = rule.limits.limits() if rule is not None else {}
    if settings:
        pieces += ["", "Settings, in brewhouse.yaml:", ""]
        pieces += [f"    rules: {{{info.id}: {{{_example(settings)}}}}}", ""]
        pieces += [line for key, limit in settings.items() for line in _setting(key, limit, width)]
    if rule is not None:
        pieces += ["", "Settings, in brewhouse.yaml:"] if not settings else []
        pieces += list(
            wrapped("level: warning or note; the most that a finding of this rule is", width, "  ", "      ")
        )
        pieces += list(wrapped(f"off instead of settings, as in rules: {{{info.id}: off}}", width, "  ", "      "))
    if rule is not None and rule.says:
        pieces += ["", "What it can say:"]
        pieces += [line for text in rule.says.values() for line in wrapped(text.lstrip(",: "), width, "  ", "    ")]
    cited = _cited(info.page, settings.values())
    if cited:
        pieces += ["", "The works cited:"]
        pieces += [line for key in cited for line in wrapped(f"[{key}] {source(key).citation}", width, "  ", "    ")]
    example = example_of(info.id, rule)
    if example is not None:
        sound, faulty, finding = example
        pieces += ["", "A recipe in which it finds nothing:", "", indent(sound.rstrip(), "    ")]
        pieces += [
            "",
            "A recipe in which it finds something:",
            "",
            indent(faulty.rstrip(), "    "),
            "",
            f"    {finding}",
        ]
    return "\n".join(pieces)


def bibliography(width: int = 80) -> str:
    """Every source with its key."""
    rows: list[str] = []
    for one in sources():
        where = f" {one.where}" if one.where else ""
        rows.extend(wrapped(f"[{one.key}] {one.citation}{where}", width, "", "    "))
    return "\n".join(rows)


def _wrapped(text: str, width: int) -> str:
    """Paragraphs at the width of a page; lines that are indented stay as they are."""
    blocks = text.split("\n\n")
    return "\n\n".join(
        block if block.startswith((" ", "-")) else "\n".join(wrapped(" ".join(block.split()), width))
        for block in blocks
    )


def _example(settings: dict[str, Limit]) -> str:
    key, limit = next(iter(settings.items()))
    return f"{key}: {limit.default:g} {limit.unit}".rstrip()


def _setting(key: str, limit: Limit, width: int) -> Iterator[str]:
    unit = f" {limit.unit}" if limit.unit else ""
    said = f"{key}: {limit.default:g}{unit} (may be {limit.low:g} to {limit.high:g}{unit}) [{limit.source}]"
    return wrapped(said, width, "  ", "      ")


def _cited(text: str, limits: Iterable[Limit]) -> list[str]:
    known = {one.key for one in sources()}
    keys = [key for key in (piece.split("]", 1)[0] for piece in text.split("[")[1:]) if key in known]
    return list(dict.fromkeys([*keys, *(key for limit in limits for key in limit.source.split() if key in known)]))
