"""A page of plain text read into a recipe: each line goes into fields, or stays as a comment beside its place."""

from collections.abc import Iterator
from typing import NamedTuple

from msgspec import Struct, field

from mashwright.budgets import PAGE_CHARACTERS, PAGE_LINE_CHARACTERS, PAGE_LINES
from mashwright.longhand.lexicon import MOST_WORDS, of_pages
from mashwright.paper.clauses import clauses
from mashwright.paper.draft import Draft
from mashwright.paper.facts import Facts
from mashwright.paper.items import only_grammar
from mashwright.paper.known import what
from mashwright.paper.lists import Lists
from mashwright.paper.plain import Line, lines_of_page
from mashwright.paper.sections import Section
from mashwright.patterns import pattern


class NotAPageError(ValueError):
    """What is no page of a recipe, in words."""


class Page(NamedTuple):
    """A page as it was read.

    Attributes:
        recipe: of format 1, as YAML text.
        read: lines that went into fields as a whole.
        partly: lines of which a part did.
        unread: lines that are comments only.
        missing: what a recipe cannot do without and the page does not say, in plain words.
    """

    recipe: str
    read: int
    partly: int
    unread: int
    missing: tuple[str, ...]


def read_page(text: str) -> Page:
    """Read a page.

    Raises:
        NotAPageError: it is too long, no text, or nothing in it is read.
    """
    if "\0" in text:
        raise NotAPageError("there are NUL characters in it, so it is no plain text; save it as text")
    if len(text) > PAGE_CHARACTERS or text.count("\n") > PAGE_LINES:
        raise NotAPageError(
            f"it is longer than {PAGE_CHARACTERS} characters or {PAGE_LINES} lines; give the part that is the recipe"
        )
    if any(len(line) > PAGE_LINE_CHARACTERS for line in text.splitlines()):
        raise NotAPageError(
            f"a line of it is longer than {PAGE_LINE_CHARACTERS} characters; break it where sentences end"
        )
    reader = _Reader()
    reader.facts.fahrenheit = _FAHRENHEIT().search(text) is not None
    for line in lines_of_page(text):
        reader.line(line)
    return reader.finished()


class _Label(NamedTuple):
    """What a line begins with: the heading of a section, or what an amount in it is."""

    heading: str
    topics: tuple[str, ...]
    end: int
    colon: bool


class _Told(Struct):
    """How much of a line went into fields."""

    line: Line
    section: str
    spans: list[tuple[int, int]] = field(default_factory=list)
    names: bool = False

    def take(self, start: int, end: int) -> None:
        self.spans.append((start, end))


_NO_LABELS = ("hop-start", "hop-after", "each", "about")
_FREE = ("name", "by", "style", "source")
_RECIPE_FOR = pattern(
    r"(?i)^(?:(?:a |the |my |our )?recipe (?:for|of)|rezept (?:für|fürs)|recette (?:de|pour)|recept voor"
    r"|opp?skrift på)\s+"
)
_MAIL = pattern(r"(?i)^(?:re|fwd?|aw|wg|sv|tr)\s*:\s*")
_FOR = pattern(r"(?i)\b(?:for|makes?|für|pour|voor|til|to|ergibt|gives?|about|of|de)\s*$")


class _Reader:
    """Reads line by line; what a line is about goes on until a heading."""

    def __init__(self) -> None:
        self.draft = Draft()
        self.section = Section()
        self.facts = Facts(self.draft)
        self.lists = Lists(self.draft, what)
        self.told: list[_Told] = []
        self.columns: list[str] = []
        self.unit = ""
        self.volumes: list[tuple[str, int, _Told, tuple[int, int]]] = []

    def line(self, line: Line) -> None:
        """Read one line."""
        if not any(one.isalnum() for one in line.text):
            if line.raw.strip():
                self.told.append(_Told(line, "blank", [(0, len(line.text))]))
            self.lists.rest_over()
            self.columns = []
            self.unit = ""
            return
        told = _Told(line, self.section.name)
        self.told.append(told)
        text = line.text
        if self._greets(text):
            return
        if self._columned(told):
            return
        text = self._with_units(text)
        if text != line.text:
            told.line = Line(line.raw, text)
        label = self._label(text)
        begin = 0
        if label is not None:
            begin = label.end
            told.take(0, begin)
            if self._free(label, text, told):
                return
            if label.heading and (
                not label.topics or label.colon or not text[begin:].strip() or label.heading in ("grist", "hops", "dry")
            ):
                self.section.enter(label.heading)
                self.lists.rest_over()
            told.section = self.section.name
            if label.heading:
                self.unit = _unit_of(text[begin:]) if text[begin:].startswith("(") else ""
                if self.unit:
                    told.take(0, len(text))
                    return
        elif (heading := self._wordy_heading(text)) is not None:
            self.section.enter(heading)
            told.section = self.section.name
            told.take(0, len(text))
            return
        if self.section.name == "notes" and label is None:
            self._note(told)
            return
        self._rest(told, text, begin, label)

    def _rest(self, told: _Told, text: str, begin: int, label: _Label | None) -> None:
        """What stands behind the label of a line."""
        topics = label.topics if label is not None else ()
        self.facts.begin(self.section, topics)
        if begin:
            self.facts.container(text[:begin])
        parts = [one._replace(start=one.start + begin) for one in clauses(text[begin:])]
        spans = self.lists.read(parts, self.section, topics)
        for one in spans:
            told.take(*one)
        if spans:
            told.section = self.lists.last if self.lists.last == "grist" else "hops"
        if self.lists.steeped:
            self.facts.begin(self.section, ("steep",))
        masked = _masked(text, spans)
        sentence = parts[0].sentence if parts else 0
        for clause in parts:
            if clause.sentence != sentence:
                self.facts.sentence(self.section)
                sentence = clause.sentence
            ends = [one.end for one in parts if one.sentence == clause.sentence]
            self._facts(
                told,
                masked[clause.start : clause.end],
                clause.start,
                masked[clause.end : min(max(ends), clause.end + _AHEAD)],
            )
        told.section = told.section if spans else self.facts.place or told.section

    def _facts(self, told: _Told, text: str, begin: int, ahead: str = "") -> None:
        """A clause whose amounts are no malt or hops."""
        if not any(one.isalnum() for one in text):
            return
        for start, end in self.facts.read(text, self.section, ahead):
            told.take(begin + start, begin + end)
        for start, end, volume in self.facts.loose:
            self.volumes.append((volume, len(self.told), told, (begin + start, begin + end)))
        self.facts.loose.clear()

    def _label(self, text: str) -> _Label | None:
        """The longest phrase at the beginning of a line that is a heading or a label there."""
        words = [(found.start(), found.end()) for found in _WORD().finditer(text)][:MOST_WORDS]
        for count in range(len(words), 0, -1):
            if words[0][0] != 0:
                return None
            end = words[count - 1][1]
            key = " ".join(text[:end].casefold().replace("-", " ").split()).rstrip(".")
            said = of_pages().get(key, ())
            headings = [one.value for one in said if one.field == "heading"]
            topics = tuple(one.value for one in said if one.field == "topic" and one.value not in _NO_LABELS)
            if not headings and not topics:
                continue
            behind = text[end:]
            colon = behind.lstrip().startswith((":", "="))
            dash = behind.startswith((" -", " |", " --"))
            alone = not behind.strip(" .:=-|")
            digit = behind.lstrip(" .~(@")[:1].isdigit()
            if set(topics) & set(_FREE) and not colon:
                topics = tuple(one for one in topics if one not in _FREE)
                if not topics and not headings:
                    continue
            if colon or alone or dash or behind.lstrip().startswith("("):
                cut = len(behind) - len(behind.lstrip(" :=.-|"))
                return _Label(headings[0] if headings else "", topics, end + cut, True)
            if topics and (digit or not headings):
                return _Label("", topics, end, False) if digit else None
            return None
        return None

    @staticmethod
    def _wordy_heading(text: str) -> str | None:
        """The section of a heading of several words: ``Hop additions for the boil:``."""
        if any(one.isdigit() for one in text) or not text.rstrip().endswith(":") or len(text.split()) > 7:
            return None
        words = [found.group().casefold().strip(".") for found in _WORD().finditer(text)]
        for size in range(3, 0, -1):
            for at in range(len(words) - size + 1):
                said = of_pages().get(" ".join(words[at : at + size]), ())
                for one in said:
                    if one.field == "heading":
                        return one.value
        return None

    def _greets(self, text: str) -> bool:
        words = text.split()
        if len(words) > 6 or any(one.isdigit() for one in text):
            return False
        for count in (3, 2, 1):
            key = " ".join(words[:count]).casefold().strip(" ,.!")
            if any(one.field == "greeting" for one in of_pages().get(key, ())):
                return True
        return False

    def _free(self, label: _Label, text: str, told: _Told) -> bool:
        """A label with free text behind it: the name, the brewer, the style."""
        topic = next((one for one in label.topics if one in _FREE), None)
        rest = text[label.end :].strip(" .,\"'“”")
        if topic is None or not label.colon or not rest:
            return False
        if topic == "name" and any(one.field for one in _said(rest) if one.field == "heading"):
            return False
        name = _RECIPE_FOR().sub("", _MAIL().sub("", rest)) if topic == "name" else rest
        told.section = "recipe"
        if topic == "name" and (cut := _NAME_END().search(name)) is not None and cut.start() > 2:
            begin = label.end + text[label.end :].index(name)
            behind = begin + cut.start()
            if self.draft.put(name[: cut.start()].strip(" ,;-–("), "recipe"):
                told.take(label.end, behind)
            self.facts.begin(self.section, ())
            for clause in clauses(text[behind:]):
                self._facts(told, clause.text, behind + clause.start)
            return True
        if self.draft.put(name, "recipe" if topic == "name" else topic):
            told.take(label.end, len(text))
        return True

    def _note(self, told: _Told) -> None:
        notes = self.draft.get("notes")
        self.draft.fields["notes"] = f"{notes} {told.line.raw.strip()}" if notes else told.line.raw.strip()
        told.take(0, len(told.line.text))

    def _columned(self, told: _Told) -> bool:
        """Whether a line is the head of a table; its units count for the bare numbers below."""
        cells = [one.strip() for one in told.line.text.split("|")]
        if len(cells) < 2 or any(one.isdigit() for one in told.line.text):
            self.columns = self.columns if len(cells) == len(self.columns) else []
            return False
        units = [_unit_of(cell) for cell in cells]
        if not any(units):
            return False
        self.columns = units
        heading = next((one.value for one in _said(cells[0]) if one.field == "heading"), None)
        if heading is not None:
            self.section.enter(heading)
            told.section = heading
        told.take(0, len(told.line.text))
        return True

    def _with_units(self, text: str) -> str:
        cells = text.split("|")
        if self._label(text) is not None:
            return text
        if self.unit and (bare := _BARE_WITHIN().search(text)) is not None:
            return f"{text[: bare.end()]} {self.unit}{text[bare.end() :]}"
        if not self.columns or len(cells) != len(self.columns):
            return text
        return "|".join(
            f" {cell.strip()} {unit} " if unit and _BARE().fullmatch(cell.strip()) else cell
            for cell, unit in zip(cells, self.columns, strict=True)
        )

    def finished(self) -> Page:
        """The page, once its last line is read."""
        self._batch()
        self._name()
        self.lists.finish()
        if not self.draft.fields.keys() - {"recipe", "notes", "by", "style", "source"}:
            raise NotAPageError("nothing in it reads as a recipe; nothing was written")
        read = partly = unread = 0
        place = "recipe"
        for told in self.told:
            if told.section == "blank":
                continue
            left = _left(told)
            if told.spans:
                place = _PLACES.get(told.section, told.section) or place
            if not left:
                read += 1
            elif told.spans:
                partly += 1
                self.draft.comment(place, f"read in part: {told.line.raw.strip()}")
            else:
                unread += 1
                self.draft.comment(place, f"not read: {told.line.raw.strip()}")
        if self.draft.get("recipe") is None:
            self.draft.put("unnamed", "recipe")
        return Page(self.draft.written(), read, partly, unread, self.draft.missing())

    def _batch(self) -> None:
        """A volume that nothing else claims is the batch, where it stands above the rest or behind *for*."""
        if self.draft.fields.get("batch"):
            return
        for volume, number, told, (start, end) in self.volumes:
            if number <= _TOP or _FOR().search(told.line.text[:start]):
                self.draft.put(volume, "batch")
                told.take(start, end)
                return

    def _name(self) -> None:
        """The first line above the rest that says nothing else."""
        if self.draft.get("recipe") is not None:
            return
        for told in self.told[:_TOP]:
            text = told.line.text
            if not told.spans and (self._greets(text) or text.endswith(",") or not any(one.isalpha() for one in text)):
                continue
            if self._named(told):
                return
            if told.spans and told.section != "blank":
                return

    def _named(self, told: _Told) -> bool:
        """Take what stands in front of a line's amounts for the name, where it can be one."""
        text = told.line.text
        at = min((start for start, _ in told.spans), default=len(text))
        cut = _NAME_END().search(text[:at])
        end = min(at, cut.start() if cut is not None and cut.start() > 2 else at)
        name = _RECIPE_FOR().sub("", text[:end].strip(" ,;:-–(|").strip()).rstrip(".")
        if len(name) < 3 or len(name.split()) > _NAME_WORDS or _mostly_grammar(name):
            return False
        self.draft.put(name, "recipe")
        told.take(0, end)
        told.section = "recipe"
        return True


_FAHRENHEIT = pattern(r"(?i)\d\s?°?\s?(?:f\b|fahrenheit)|\d°f")
_AHEAD = 80
"""Characters behind a clause in which the time to its temperature is looked for; judgement."""
_TOP = 6
"""Lines in which a name or a batch without a label may stand; judgement."""
_NAME_WORDS = 9
_WORD = pattern(r"[^\s()\[\],;:@=~|]+")
_BARE = pattern(r"\d+(?:\.\d+)?(?:-\d+(?:\.\d+)?)?")
_BARE_WITHIN = pattern(r"(?<![\w.(])\d+(?:\.\d+)?(?=\s*(?:$|[,;(|]))")
_NAME_END = pattern(
    r"\s*(?:[,;(|]|\s[-–—]\s|:\s|\.\s)|\s+\d+(?:\.\d+)?\s?(?:l|liters?|litres?|gal|gallons?|liter)\b|\s+(?:for|pour|für|voor|til)\s+\d"
)
_PLACES = {"dry": "hops", "any": ""}
"""Sections that are no field; a line in none stands beside the one before it."""
_HEADS = {
    "kg": "kg", "g": "g", "gramm": "g", "lb": "lb", "lbs": "lb", "oz": "oz", "%": "%", "min": "min", "mins": "min",
    "minutes": "min", "minuten": "min", "°c": "°C", "c": "°C", "°f": "°F", "f": "°F", "ebc": "EBC", "alpha": "%",
    "aa": "%", "α": "%", "α-säure": "%", "alphasäure": "%", "alfa": "%", "alfazuur": "%", "ml": "ml", "l": "l",
    "days": "d", "tage": "d", "time": "min", "zeit": "min", "tijd": "min", "tid": "min", "durée": "min",
    "temp": "°", "dauer": "min", "aa %": "%", "% aa": "%", "% alpha": "%", "alpha %": "%", "kochzeit": "min",
    "boil": "min", "share": "%", "anteil": "%", "dagen": "d", "dage": "d", "jours": "d", "alfasyre": "%",
}  # fmt: skip


def _unit_of(cell: str) -> str:
    """The unit that the head of a column gives the numbers below it; "" for none."""
    inner = _INNER().search(cell)
    for said in ((inner[1],) if inner is not None else ()) + (cell,):
        if (unit := _HEADS.get(said.strip(" .").casefold())) is not None:
            return unit
    return ""


_INNER = pattern(r"[(\[]([^)\]]+)[)\]]|(?<=\s)in (\w+)$")


def _said(text: str) -> Iterator:  # type: ignore[type-arg]
    key = " ".join(text.casefold().replace("-", " ").split()).strip(" .:")
    yield from of_pages().get(key, ())


def _mostly_grammar(name: str) -> bool:
    """Whether what could be a name is the beginning of a sentence."""
    words = name.split()
    return 2 * sum(only_grammar(one, of_pages()) for one in words) > len(words)


def _masked(text: str, spans: list[tuple[int, int]]) -> str:
    for start, end in spans:
        text = f"{text[:start]}{' ' * (end - start)}{text[end:]}"
    return text


def _left(told: _Told) -> bool:
    """Whether something of a line is neither in a field nor a word of grammar."""
    text = _masked(told.line.text, told.spans)
    return any(one.isalnum() for one in text) and not only_grammar(text, of_pages())
