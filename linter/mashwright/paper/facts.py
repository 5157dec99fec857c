"""What the amounts of a page are that are no malt or hops: by the label beside them, the section, or their own unit."""

from collections.abc import Iterator

from msgspec import Struct, field

from mashwright.longhand.lexicon import of_pages
from mashwright.longhand.lines import addition_line
from mashwright.longhand.pieces import Amount, Phrase, Piece, Rest, cut
from mashwright.measures.quantity import Kind, read_quantity
from mashwright.measures.refusals import QuantityError
from mashwright.paper.amounts import KINDS, is_gravity, value
from mashwright.paper.draft import Draft
from mashwright.paper.items import known_in, only_grammar
from mashwright.paper.known import what, yeast_only
from mashwright.paper.sections import Section
from mashwright.patterns import pattern

_FIELDS = frozenset({"topic", "package", "by", "sparge-by"})
_OF_SECTION = {
    "mash": ("mash",), "sparge": ("sparge",), "boil": ("boil",), "ferment": ("ferment",), "yeast": ("yeast",),
    "package": ("carbonation", "priming"),
}  # fmt: skip
"""What the amounts of a section are where no label says otherwise."""
_PLACE = {
    "batch": "batch", "efficiency": "efficiency", "og": "targets", "fg": "targets", "abv": "targets", "ibu": "targets",
    "colour": "targets", "pre-boil-gravity": "targets", "first-wort-gravity": "targets", "attenuation": "targets",
    "steep": "steep", "mash-water": "mash", "strike": "mash", "mash-in": "mash", "mash": "mash", "rest": "mash",
    "mash-out": "mash", "sparge": "sparge", "boil": "boil", "preboil": "boil", "ferment": "ferment", "pitch": "yeast",
    "starter": "yeast", "yeast": "yeast", "priming": "package", "carbonation": "package", "addition": "additions",
    "total": "grist",
}  # fmt: skip
"""The field beside which a line of a topic stands where it is not read."""
_SIMPLE = {
    ("batch", Kind.VOLUME): ("batch",),
    ("efficiency", Kind.SHARE): ("efficiency",),
    ("abv", Kind.SHARE): ("targets", "abv"),
    ("attenuation", Kind.SHARE): ("targets", "attenuation"),
    ("ibu", Kind.BITTERNESS): ("targets", "bitterness"),
    ("colour", Kind.BEER_COLOUR): ("targets", "colour"),
    ("mash-water", Kind.VOLUME): ("mash", "water"),
    ("mash-water", Kind.THICKNESS): ("mash", "thickness"),
    ("mash", Kind.VOLUME): ("mash", "water"),
    ("mash", Kind.THICKNESS): ("mash", "thickness"),
    ("strike", Kind.VOLUME): ("mash", "water"),
    ("mash-in", Kind.VOLUME): ("mash", "water"),
    ("mash-water", Kind.TEMPERATURE): ("mash", "strike"),
    ("strike", Kind.TEMPERATURE): ("mash", "strike"),
    ("sparge", Kind.VOLUME): ("sparge", "water"),
    ("sparge", Kind.TEMPERATURE): ("sparge", "at"),
    ("steep", Kind.TEMPERATURE): ("steep", "at"),
    ("steep", Kind.TIME): ("steep", "for"),
    ("steep", Kind.VOLUME): ("steep", "water"),
    ("boil", Kind.TIME): ("boil", "for"),
    ("boil", Kind.VOLUME): ("boil", "volume"),
    ("preboil", Kind.VOLUME): ("boil", "volume"),
    ("preboil", Kind.TIME): ("boil", "for"),
    ("pitch", Kind.TEMPERATURE): ("yeast", "at"),
    ("pitch", Kind.PACKS): ("yeast", "pitch"),
    ("pitch", Kind.MASS): ("yeast", "pitch"),
    ("pitch", Kind.CELLS): ("yeast", "pitch"),
    ("starter", Kind.VOLUME): ("yeast", "starter"),
    ("yeast", Kind.MASS): ("yeast", "pitch"),
    ("yeast", Kind.PACKS): ("yeast", "pitch"),
    ("yeast", Kind.CELLS): ("yeast", "pitch"),
    ("yeast", Kind.VOLUME): ("yeast", "pitch"),
    ("carbonation", Kind.CARBONATION): ("package", "carbonation"),
    ("carbonation", Kind.PRESSURE): ("package", "pressure"),
    ("priming", Kind.MASS): ("package", "priming", "weight"),
    ("priming", Kind.CARBONATION): ("package", "priming", "rate"),
    ("priming", Kind.DOSE): ("package", "priming", "rate"),
}
_GRAVITIES = {
    "og": "og", "fg": "fg", "pre-boil-gravity": "pre-boil-gravity", "first-wort-gravity": "first-wort-gravity",
    "preboil": "pre-boil-gravity",
}  # fmt: skip
_STEPS = frozenset(("mash", "rest", "mash-out"))
_WARM = frozenset((*_STEPS, "strike", "mash-in", "mash-water", "sparge", "ferment", "pitch", "yeast"))
_BEHIND = pattern(r"(?i)(?:@|\b(?:at|to|bei|auf|à|a|op|bij|naar|ved|til|på|mit|of))\s*$")
_LONGEST_BOIL = 240
"""Minutes: up to here a bare number behind *boil* is minutes (judgement)."""
_RAMP = pattern(r"(?i)\b(?:over|within|innerhalb|binnen)\s*(?:von\s*)?$")
"""What stands in front of the time that it takes to get to a rest."""
_NUMBER = pattern(r"\d+(?:\.\d+)?")
_SUGAR = pattern(r"(?i)\w*(?:sugar|zucker|sucre|suiker|sukker)\w*")
_LONG = frozenset(("d", "day", "days", "weeks", "week", "months", "month", "years", "year"))


class Facts(Struct):
    """Puts what the amounts of lines say into a draft.

    Attributes:
        fahrenheit: whether a bare degree is one of Fahrenheit, as on the rest of the page.
        place: the field that the last line was about, "" where none.
        loose: volumes of which nothing says what they are, with their places in the clause.
    """

    draft: Draft
    fahrenheit: bool = False
    place: str = ""
    loose: list[tuple[int, int, str]] = field(default_factory=list)
    topics: tuple[str, ...] = ()
    label: tuple[str, ...] = ()
    open: dict[str, dict[str, str]] = field(default_factory=dict)
    time_first: bool = False
    ahead: str = ""
    paired: tuple[str, ...] = ()

    def begin(self, section: Section, topics: tuple[str, ...]) -> None:
        """A line begins, with what its label says."""
        self.label = topics
        self.topics = topics or _OF_SECTION.get(section.name, ())
        self.place = _PLACE.get(topics[0], "") if topics else ""
        self.time_first = False
        self.paired = ()

    def sentence(self, section: Section) -> None:
        """A new sentence begins; a label holds for its own."""
        self.topics = self.label or _OF_SECTION.get(section.name, ())

    def container(self, text: str) -> bool:
        """See what a heading says that the beer goes into."""
        for piece in cut(text, (), frozenset({"package"}), of_pages()):
            if isinstance(piece, Phrase):
                return self._packed(piece)
        return False

    def read(self, text: str, section: Section, ahead: str = "") -> Iterator[tuple[int, int]]:
        """Read a clause; the places in it that went into fields.

        Args:
            text: the clause.
            section: that it is in.
            ahead: what follows it in its sentence.
        """
        self.ahead = ahead
        pieces = cut(text, KINDS, _FIELDS, of_pages())
        if (taken := self._addition(text, pieces, section)) is not None:
            yield from taken
            return
        order = [one.kind for one in pieces if isinstance(one, Amount) and one.kind in (Kind.TIME, Kind.TEMPERATURE)]
        if order and len(order) > 1:
            self.time_first = order[0] is Kind.TIME
        labels: list[tuple[int, int]] = []
        any_read = False
        for at, piece in enumerate(pieces):
            if isinstance(piece, Phrase):
                if self._phrase(piece):
                    labels.append(piece[-2:])
                if any(one.field == "package" for one in piece.meanings) and self._packed(piece):
                    any_read = True
                    yield piece.start, piece.end
            elif isinstance(piece, Amount) and self._amount(piece, at, pieces, text, section):
                any_read = True
                yield piece.start, piece.end
        for start, end in self._yeast(text, pieces, section):
            any_read = True
            yield start, end
        for start, end in self._sugar(text):
            any_read = True
            yield start, end
        if any_read:
            yield from labels

    def _phrase(self, piece: Phrase) -> bool:
        topics = tuple(one.value for one in piece.meanings if one.field == "topic")
        if not topics and any(one.field == "package" for one in piece.meanings):
            topics = ("priming", "carbonation")
        topics = tuple(one for one in topics if one not in ("name", "by", "style", "source", "about", "each"))
        if not topics:
            return False
        self.topics = topics
        self.place = _PLACE.get(topics[0], self.place)
        return True

    def _packed(self, piece: Phrase) -> bool:
        said = next((one.value for one in piece.meanings if one.field == "package"), "")
        return bool(said) and self.draft.put(said, "package", "in")

    def _amount(self, piece: Amount, at: int, pieces: list[Piece], text: str, section: Section) -> bool:
        if piece.kind is Kind.TIME and _RAMP().search(text[max(0, piece.start - 12) : piece.start]):
            return False
        following = self._following(piece, at, pieces, text)
        tried = [*following, *self.topics]
        for topic in tried:
            if self._assigned(topic, piece, text, at, pieces):
                if topic in following:
                    self.place = _PLACE.get(topic, self.place)
                return True
        if (piece.kind in (Kind.TEMPERATURE, Kind.TIME) or piece.text.endswith("°")) and self._pair(
            piece, pieces, text, section
        ):
            return True
        return self._by_itself(piece, text, section)

    def _pair(self, piece: Amount, pieces: list[Piece], text: str, section: Section) -> bool:
        """A temperature with its time, of which nothing says what they are: by minutes or days."""
        if section.name == "hops":
            return False
        said = {Kind.TIME: "", Kind.TEMPERATURE: ""}
        ahead = [one for one in cut(self.ahead, KINDS, frozenset()) if isinstance(one, Amount)][:1]
        for one in (*pieces, *ahead):
            if isinstance(one, Amount) and one.kind in said and one.kind is not None:
                said[one.kind] = said[one.kind] or value(one.text, one.kind)
            elif isinstance(one, Amount) and one.kind is None and one.text.endswith("°"):
                warm = self._bare_degrees(one, text, "mash")
                said[Kind.TEMPERATURE] = said[Kind.TEMPERATURE] or warm or ""
        time, warm = said[Kind.TIME], said[Kind.TEMPERATURE]
        kind = piece.kind or Kind.TEMPERATURE
        if kind is Kind.TIME and self.paired and not warm:  # behind a temperature in the clause before
            path, self.paired = self.paired, ()
            return "for" not in self.open.get(path[0], {}) and self._step(path, kind, value(piece.text, kind))
        if not (time and warm):
            return False
        path = ("ferment",) if time.split()[-1] in _LONG else ("mash", "rests")
        if not _can_be("mash" if path[0] == "mash" else "ferment", warm):
            return False
        self.paired = path
        own = value(piece.text, kind) if piece.kind is not None else warm
        return self._step(path, kind, own)

    def _following(self, piece: Amount, at: int, pieces: list[Piece], text: str) -> list[str]:
        """What a label right behind an amount says that it is: ``18 l Hauptguss``, ``1.050 OG``."""
        after = pieces[at + 1] if at + 1 < len(pieces) else None
        before = pieces[at - 1] if at else None
        if not isinstance(after, Phrase) or text[piece.end : after.start].strip(" ()-"):
            return []
        topics = [one.value for one in after.meanings if one.field == "topic"]
        if isinstance(before, Phrase) and any(one.field == "topic" for one in before.meanings):
            own = [one.value for one in before.meanings if one.field == "topic"]
            if any(self._fits(one, piece) for one in own):
                return []
        more = pieces[at + 2] if at + 2 < len(pieces) else None
        if (
            isinstance(more, Amount)
            and more.kind is piece.kind
            and self.topics
            and any(self._fits(one, piece) for one in self.topics)
        ):
            return []  # the label is that of the next amount
        return topics

    @staticmethod
    def _fits(topic: str, piece: Amount) -> bool:
        if (topic, piece.kind) in _SIMPLE:
            return True
        if topic in _STEPS or topic == "ferment":
            return piece.kind in (Kind.TEMPERATURE, Kind.TIME)
        return topic in _GRAVITIES and (piece.kind is Kind.GRAVITY or is_gravity(piece.text))

    def _assigned(self, topic: str, piece: Amount, text: str, at: int, pieces: list[Piece]) -> bool:
        kind, said = piece.kind, piece.text
        if kind is None and topic in _WARM and (warm := self._bare_degrees(piece, text, topic)) is not None:
            kind, said = Kind.TEMPERATURE, warm
        if topic in _GRAVITIES and (found := self._gravity(piece, topic)) is not None:
            name = _GRAVITIES[topic]
            if topic == "og" and self.draft.get("targets", "og") is not None and "fg" not in self.topics:
                name = "fg"  # SG 1.064 to 1.014
            return self.draft.put(found, "targets", name)
        if kind is None and topic == "ibu" and _NUMBER().fullmatch(said):
            return self.draft.put(f"{said} IBU", "targets", "bitterness")
        if kind is None and topic == "colour" and (unit := _colour_unit(text)):
            return self.draft.put(f"{said} {unit}", "targets", "colour")
        if kind is None and topic == "boil" and _NUMBER().fullmatch(said) and self._behind_boil(at, pieces):
            return 10 <= float(said) <= _LONGEST_BOIL and self.draft.put(f"{said} min", "boil", "for")
        if kind is Kind.DOSE and topic == "carbonation":
            kind = Kind.CARBONATION
        if topic == "mash-in" and kind is Kind.TEMPERATURE:  # of the water beside it, else of the mash
            topic = "strike" if any(isinstance(one, Amount) and one.kind is Kind.VOLUME for one in pieces) else topic
        if topic in ("strike", "mash-in", "mash-water") and kind is Kind.TEMPERATURE and self._rests_here(at, pieces):
            topic = "rest"
        if kind is Kind.TEMPERATURE and not _can_be(topic, value(said, kind)):
            return False
        if topic in _STEPS and kind in (Kind.TEMPERATURE, Kind.TIME):
            return self._step(("mash", "rests"), kind, value(said, kind))
        if topic in ("strike", "mash-in", "mash-water") and kind is Kind.TIME:
            return self._step(("mash", "rests"), kind, value(said, kind))
        if topic == "ferment" and kind in (Kind.TEMPERATURE, Kind.TIME):
            return self._step(("ferment",), kind, value(said, kind))
        if topic == "yeast" and kind is Kind.TEMPERATURE:
            return self._step(("ferment",), kind, value(said, kind))
        if topic == "attenuation" and kind is Kind.SHARE and "yeast" in (*self.label, self.place):
            return self.draft.put(value(said, kind), "yeast", "attenuation")
        if topic == "priming" and kind is Kind.CARBONATION and "/" not in said:
            return False  # volumes of gas, and no sugar to the litre
        path = _SIMPLE.get((topic, kind)) if kind is not None else None
        if path is not None and path[1:2] == ("priming",) and self._primed(path[2]):
            return False
        if path is None:
            return False
        return self.draft.put(value(said, kind), *path)

    def _behind_boil(self, at: int, pieces: list[Piece]) -> bool:
        """Whether a bare number stands right behind *boil*."""
        return isinstance(pieces[at - 1], Phrase) if at else "boil" in self.label

    def _primed(self, name: str) -> bool:
        """Whether the other way to say how much sugar is taken is stated already."""
        other = "rate" if name == "weight" else "weight"
        return self.draft.get("package", "priming", other) is not None

    def _rests_here(self, at: int, pieces: list[Piece]) -> bool:
        """Whether the time of a rest stands behind a temperature, before another label."""
        for one in (*pieces[at + 1 :], *cut(self.ahead, KINDS, _FIELDS, of_pages())):
            if isinstance(one, Phrase) and any(
                each.field == "topic" and each.value != "about" for each in one.meanings
            ):
                return False
            if isinstance(one, Amount):
                return one.kind is Kind.TIME
        return False

    def _bare_degrees(self, piece: Amount, text: str, topic: str) -> str | None:
        """A bare number as a temperature, where it can only be one: ``at 152``, ``66°``."""
        number = piece.text.rstrip("° ")
        ends = [float(one) for one in _NUMBER().findall(number)]
        if not ends or _NUMBER().fullmatch(number.split("-")[0].strip()) is None:
            return None
        if not piece.text.endswith("°") and not _BEHIND().search(text[max(0, piece.start - 12) : piece.start]):
            return None
        high = max(ends)
        cool = topic in ("ferment", "pitch", "yeast")
        if high > 212 or (not piece.text.endswith("°") and not cool and high < 30):
            return None
        hot = high > (35 if cool else 100) or (self.fahrenheit and high > (30 if cool else 85))
        return f"{number} {'°F' if hot else '°C'}"

    def _gravity(self, piece: Amount, topic: str) -> str | None:
        if piece.kind is Kind.GRAVITY:
            return value(piece.text, Kind.GRAVITY)
        if piece.kind is None and is_gravity(piece.text):
            return piece.text
        if piece.kind is Kind.SHARE and topic in ("og", "fg"):
            return f"{piece.text.rstrip(' %')} °P"  # extract in per cent is what a degree Plato is
        return None

    def _step(self, path: tuple[str, ...], kind: Kind, said: str) -> bool:
        """A temperature or a time of a step, put together with the other one where that stands beside it."""
        where = path[0]
        long = said.rsplit(maxsplit=1)[-1] in _LONG
        if kind is Kind.TIME and long == (where == "mash"):
            return False
        name = "for" if kind is Kind.TIME else "at"
        step = self.open.get(where)
        steps = self.draft.items(*path)
        if step is not None and name not in step and (not self.time_first or name == "at" or len(step) == 1):
            step[name] = said
        else:
            if any(one.get(name) == said and len(one) == 2 for one in steps) and name == "at":
                self.open[where] = next(one for one in steps if one.get(name) == said)
                return True
            step = {name: said}
            steps.append(step)
            self.open[where] = step
        return True

    def _by_itself(self, piece: Amount, text: str, section: Section) -> bool:
        """An amount whose unit says what it is."""
        kind = piece.kind
        if kind is Kind.BITTERNESS:
            return self.draft.put(value(piece.text, kind), "targets", "bitterness")
        if kind is Kind.BEER_COLOUR and section.name not in ("grist", "hops"):
            return self.draft.put(value(piece.text, kind), "targets", "colour")
        if kind is Kind.SHARE and _ABV().search(text[piece.start :][: len(piece.text) + 8]):
            return self.draft.put(value(piece.text, kind), "targets", "abv")
        if kind is Kind.GRAVITY or (
            kind is None and piece.text[:2] in ("1.", "10") and is_gravity(piece.text) and len(piece.text) > 4
        ):
            found = self._gravity(piece, "og")
            name = "og" if self.draft.get("targets", "og") is None else "fg"
            return found is not None and self.draft.put(found, "targets", name)
        if kind is Kind.CARBONATION and "/" not in piece.text:  # grams to the litre may be of anything
            return self.draft.put(value(piece.text, kind), "package", "carbonation")
        if kind is Kind.PACKS:
            return self.draft.put(value(piece.text, kind), "yeast", "pitch")
        if kind is Kind.THICKNESS:
            return self.draft.put(value(piece.text, kind), "mash", "thickness")
        if kind is Kind.VOLUME:
            self.loose.append((piece.start, piece.end, value(piece.text, kind)))
        return False

    def _yeast(self, text: str, pieces: list[Piece], section: Section) -> Iterator[tuple[int, int]]:
        """The kind of yeast that a clause names."""
        here = any(
            isinstance(one, Phrase) and any(each.value in ("yeast", "pitch") for each in one.meanings) for one in pieces
        )
        if (
            not (here or section.name == "yeast" or "yeast" in self.label)
            or self.draft.get("yeast", "kind") is not None
        ):
            return
        known = known_in(text, 0, len(text), yeast_only)
        if known:
            best = max(known, key=lambda one: one.end - one.start)
            if self.draft.put(text[best.start : best.end].strip(" .,"), "yeast", "kind"):
                yield best.start, best.end
        elif section.name == "yeast" or "yeast" in self.label:
            run = next(
                (one for one in pieces if isinstance(one, Rest) and not only_grammar(one.text, of_pages())), None
            )
            if run is not None and self.draft.put(run.text.strip(" .,"), "yeast", "kind"):
                yield run.start, run.end

    def _sugar(self, text: str) -> Iterator[tuple[int, int]]:
        """What a beer is primed with."""
        if "priming" not in self.topics or self.draft.get("package", "priming", "sugar") is not None:
            return
        priming = self.draft.fields.get("package")
        if not isinstance(priming, dict) or not isinstance(priming.get("priming"), dict):
            return
        known = [one for one in known_in(text, 0, len(text), what) if one.kind == "grist"]
        if known:
            best = max(known, key=lambda one: one.end - one.start)
            self.draft.put(text[best.start : best.end], "package", "priming", "sugar")
            yield best.start, best.end
        elif (word := _SUGAR().search(text)) is not None:
            self.draft.put(word.group(), "package", "priming", "sugar")
            yield word.start(), word.end()

    def _addition(self, text: str, pieces: list[Piece], section: Section) -> list[tuple[int, int]] | None:
        """A spice, a salt or finings, with when it goes in."""
        named = any(
            isinstance(one, Phrase) and any(each.value == "addition" for each in one.meanings) for one in pieces
        )
        if not named and section.name != "additions":
            return None
        found = addition_line(text)
        if not isinstance(found, tuple) or len(found) < 2 or not any(one.name == "what" for one in found):
            return None
        self.draft.items("additions").append(
            {one.name: value(one.text) if one.name != "what" else one.text for one in found}
        )
        self.place = "additions"
        return [(0, len(text))]


_ABV = pattern(r"(?i)abv|alc|alk|alcohol|%\s?vol")


COOLEST_REST = 30
"""°C: no rest of a mash is cooler; what stands there is of the fermentation (judgement)."""
WARMEST_FERMENT = 45
"""°C: nothing that brews beer works above it (judgement)."""


def _can_be(topic: str, said: str) -> bool:
    """Whether a temperature can be one of a mash, or of a fermentation."""
    try:
        degrees = read_quantity(said, Kind.TEMPERATURE).range.typical
    except QuantityError:
        return True
    if topic in _STEPS or topic in ("strike", "mash-in", "mash-water", "sparge"):
        return degrees >= COOLEST_REST
    return topic not in ("ferment", "pitch", "yeast") or degrees <= WARMEST_FERMENT


def _colour_unit(text: str) -> str:
    for unit in ("EBC", "SRM"):
        if unit.casefold() in text.casefold():
            return unit
    return ""
