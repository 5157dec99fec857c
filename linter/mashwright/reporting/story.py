"""An audit on a page: how a recipe was read, what beer it would have been, its findings, and what it does not say."""

from collections.abc import Iterator

from mashwright.reporting.words import INDENT, wrapped
from mashwright.reviewing.results import Reviewed, Story


def told_around(recipe: Reviewed, story: Story, findings: Iterator[str], width: int = 80) -> Iterator[str]:
    """A recipe's story around its findings, line by line without line ends, and an empty line behind it.

    Args:
        recipe: whose story it is.
        story: what is told.
        findings: the lines of its findings, as they are to be printed.
        width: where lines wrap, in characters; the lines of the findings stay as they are.
    """
    yield from wrapped(f"{recipe.name or 'A recipe without a name'}, {recipe.path}", width)
    if story.source:
        yield from wrapped(story.source, width, f"{INDENT}source: ", INDENT * 2)
    if story.readings:
        yield "How it was read"
        for line, text in story.readings:
            yield from wrapped(f"line {line}: {text}", width, INDENT, INDENT * 2)
    if story.beer:
        yield "What it would be, brewed today"
        for word, shown, stated in story.beer:
            said = f"; stated: {stated}" if stated else ""
            yield from wrapped(f"{word}: {shown}{said}", width, INDENT, INDENT * 2)
    yield "What would not work today"
    first = next(findings, f"{INDENT}nothing found")
    yield first
    yield from findings
    if story.assumed or story.missing:
        yield "What it does not say"
        for sentence in story.assumed:
            yield from wrapped(sentence, width, f"{INDENT}assumed: ", INDENT * 2)
        for missing in story.missing:
            yield from wrapped(missing, width, f"{INDENT}missing: ", INDENT * 2)
    yield ""
