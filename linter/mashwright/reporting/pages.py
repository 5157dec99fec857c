"""What ``explain`` prints: a rule's page, the list of rules, the bibliography."""

from collections.abc import Iterable
from textwrap import fill, indent

from mashwright.ingredients.bibliography import source, sources
from mashwright.reviewing.plugins import Rule, example_of
from mashwright.reviewing.results import RuleInfo
from mashwright.rule import Limit

WIDTH = 80


def list_of(infos: Iterable[RuleInfo]) -> str:
    """Every rule with its question."""
    rows = [fill(info.question, WIDTH, initial_indent=f"{info.id:<24}", subsequent_indent=" " * 24) for info in infos]
    rows.append("")
    rows.append("mashwright explain RULE shows a rule's page.")
    return "\n".join(rows)


def page(info: RuleInfo, rule: Rule | None) -> str:
    """A rule's page: its text, its settings, its sources and its two recipes."""
    pieces = [info.id, "=" * len(info.id), "", _wrapped(info.page)]
    settings = rule.limits.limits() if rule is not None else {}
    if settings:
        pieces += ["", "Settings, in brewhouse.yaml:", ""]
        pieces += [f"    rules: {{{info.id}: {{{_example(settings)}}}}}", ""]
        pieces += [_setting(key, limit) for key, limit in settings.items()]
    cited = _cited(info.page, settings.values())
    if cited:
        pieces += ["", "The works cited:"]
        pieces += [
            fill(f"[{key}] {source(key).citation}", WIDTH, initial_indent="  ", subsequent_indent="    ")
            for key in cited
        ]
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


def bibliography() -> str:
    """Every source with its key."""
    rows = []
    for one in sources():
        where = f" {one.where}" if one.where else ""
        rows.append(
            fill(
                f"[{one.key}] {one.citation}{where}",
                WIDTH,
                subsequent_indent="    ",
                break_long_words=False,
                break_on_hyphens=False,
            )
        )
    return "\n".join(rows)


def _wrapped(text: str) -> str:
    """Paragraphs at the width of a page; lines that are indented stay as they are."""
    blocks = text.split("\n\n")
    return "\n\n".join(
        block if block.startswith((" ", "-")) else fill(" ".join(block.split()), WIDTH, break_on_hyphens=False)
        for block in blocks
    )


def _example(settings: dict[str, Limit]) -> str:
    key, limit = next(iter(settings.items()))
    return f"{key}: {limit.default:g} {limit.unit}".rstrip()


def _setting(key: str, limit: Limit) -> str:
    unit = f" {limit.unit}" if limit.unit else ""
    said = f"{key}: {limit.default:g}{unit} (may be {limit.low:g} to {limit.high:g}{unit}) [{limit.source}]"
    return fill(said, WIDTH, initial_indent="  ", subsequent_indent="      ")


def _cited(text: str, limits: Iterable[Limit]) -> list[str]:
    known = {one.key for one in sources()}
    keys = [key for key in (piece.split("]", 1)[0] for piece in text.split("[")[1:]) if key in known]
    return list(dict.fromkeys([*keys, *(key for limit in limits for key in limit.source.split() if key in known)]))
