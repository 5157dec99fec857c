"""The grist and the hops of a page: which clauses of a line make one line of a list."""

from msgspec import Struct, field

from mashwright.longhand.lexicon import of_pages
from mashwright.longhand.pieces import Amount, Phrase, Piece, Rest, cut
from mashwright.measures.quantity import Kind
from mashwright.paper.amounts import KINDS
from mashwright.paper.clauses import Clause
from mashwright.paper.draft import Draft
from mashwright.paper.items import HOP_FIELDS, Item, Names, each_of, grist_item, hop_item, known_in
from mashwright.paper.sections import Section
from mashwright.patterns import pattern

_MALT = pattern(
    r"(?i)malz|malt\b|malts\b|mout|sugar|zucker|sucre|suiker|sukker|extra[ck]t|flocken|flake|flocons|vlokken|flager|havregryn|honey|honig|miel\b|honning|honing|graan|korn\b|gerste|orge\b|gerst\b|byg\b"
)
_HOP = pattern(r"(?i)\b(?:hops?|\w*hopfen|houblons?|\w*humle|\w*hop)\b")
_AMOUNT_KINDS = frozenset((Kind.MASS, Kind.ALPHA_UNITS))
_OTHER = frozenset((
    "priming", "yeast", "starter", "addition", "carbonation", "batch", "mash-water", "sparge", "total", "efficiency",
    "og", "fg", "abv", "pitch", "attenuation", "ibu",
))  # fmt: skip
"""Topics of which an amount in a clause may be, so that it is no line of grist or hops."""
_STEPS = frozenset(("mash", "rest", "mash-out", "strike", "mash-in", "ferment", "boil", "preboil", "colour"))
"""Topics of the line of a step, so that a bare time in it is no hop's."""
_TIMES = ("boil", "first-wort", "dry", "whirlpool", "mash", "at")


class _Begun(Struct):
    """A line of a list that is being put together."""

    kind: str
    clauses: list[Clause]
    amount: bool
    lead: list[Clause] = field(default_factory=list)


class Lists(Struct):
    """Puts lines of grist and hops into a draft."""

    draft: Draft
    names: Names
    late: list[tuple[dict[str, str], bool, str]] = field(default_factory=list)
    lead: str = ""
    last: str = ""
    steeped: bool = False

    def rest_over(self) -> None:
        """An empty line, or a heading: what was said of all additions below it is said no more."""
        self.lead = self.last = ""

    def read(self, parts: list[Clause], section: Section, topics: tuple[str, ...]) -> list[tuple[int, int]]:
        """The places in a line that went into lists.

        Args:
            parts: the clauses of the line.
            section: that it is in.
            topics: what its label says that its amounts are.
        """
        self.steeped = False
        if section.name in ("yeast", "package"):
            return []
        if set(topics) & _OTHER or (set(topics) & _STEPS and not any(self._known(one) for one in parts)):
            parts = [one for one in parts if one.sentence != parts[0].sentence]  # the label holds for its sentence
        boils = [
            one for one in parts[:1] if "boil" in topics and not _MASSES().search(one.text)
        ]  # its time is that of the boil too
        begun = self._gathered(parts, section)
        if not begun:
            return self._leading(parts, section)
        taken: list[tuple[int, int]] = []
        made: list[tuple[_Begun, Item]] = []
        for one in begun:
            before = self._hop_before(made) if one.kind == "hop" else ""
            text = ", ".join(clause.text for clause in one.clauses)
            item = grist_item(text, self.names) if one.kind == "grist" else hop_item(text, self.names, before)
            if item is not None and one.lead and not _timed(item):
                one.clauses = [*one.lead, *one.clauses]
                item = hop_item(", ".join(clause.text for clause in one.clauses), self.names, before)
            if item is None:
                continue
            several = each_of(text, self.names) if one.kind == "hop" else []
            items = [more for each in several if (more := hop_item(each, self.names, before)) is not None]
            made += [(one, more) for more in items or [item]]
            left = (
                tuple(word for word in items[0].left if all(word in more.left for more in items))
                if items
                else item.left
            )
            boil = [
                clause for clause in one.clauses if _BOILS().search(clause.text) and not _MASSES().search(clause.text)
            ]
            taken += _spans([clause for clause in one.clauses if clause not in (*boil, *boils)], left)
        self._share_times(made, section)
        self.last = made[-1][0].kind if made else self.last
        for one, item in made:
            if one.kind == "grist":
                self.steeped |= item.fields.get("add") == "steep"
                self.draft.items("grist").append(item.fields)
            else:
                self.draft.items("hops").append(item.fields)
                self.late.append((item.fields, item.starts, item.after))
        return taken

    def _leading(self, parts: list[Clause], section: Section) -> list[tuple[int, int]]:
        """A line that says of the hops below it when they go in: ``Last 10 min:``."""
        if section.name != "hops" or not parts:
            return []
        text = ", ".join(one.text for one in parts)
        topics = {
            one.value
            for piece in cut(text, KINDS, frozenset({"topic"}), of_pages())
            if isinstance(piece, Phrase)
            for one in piece.meanings
            if one.field == "topic"
        }
        if topics - {"hop-start", "hop-after", "each", "about"}:
            return []
        pieces = cut(text, (Kind.TIME,), HOP_FIELDS)
        says = [one for one in pieces if isinstance(one, Phrase) and any(each.field for each in one.meanings)]
        timed = any(isinstance(one, Amount) and one.kind is Kind.TIME for one in pieces)
        if not (says or timed or "hop-start" in topics):
            return []
        self.lead = text
        return [(one.start, one.end) for one in parts]

    def _hop_before(self, made: list[tuple[_Begun, Item]]) -> str:
        for _, item in reversed(made):
            if "hop" in item.fields:
                return item.fields["hop"]
        return ""

    def _gathered(self, parts: list[Clause], section: Section) -> list[_Begun]:
        """The lines of lists in a line of the page, each with its clauses."""
        begun: list[_Begun] = []
        waiting: list[Clause] = []
        lead: list[Clause] = []
        now: _Begun | None = None
        sentence = packed = -1
        for at, clause in enumerate(parts):
            if clause.sentence != sentence:
                waiting, lead, sentence = [], [], clause.sentence
                if now is not None and not (section.name in ("grist", "hops") and self._goes_with(clause, now)):
                    now = None
            pieces = cut(clause.text, KINDS, frozenset({"topic", *HOP_FIELDS}), of_pages())
            said = {
                one.value
                for piece in pieces
                if isinstance(piece, Phrase)
                for one in piece.meanings
                if one.field == "topic"
            }
            if said & _OTHER and section.name not in ("grist", "hops"):
                now = None
                continue
            kind = self._kind(clause, pieces, section, begun[-1].kind if begun else self.last)
            packed = clause.sentence if self._packed(clause) else packed
            if kind == "grist" and section.name != "grist" and packed == clause.sentence:
                now = None
                continue
            if "yeast" in said and not self._known(clause):
                now = None
                continue
            amount = any(isinstance(one, Amount) and one.kind in _AMOUNT_KINDS for one in pieces) or (
                kind == "grist"
                and any(isinstance(one, Amount) and one.kind is Kind.SHARE for one in pieces)
                and not (now is not None and now.amount and not self._known(clause))
            )
            if amount and said & {"total"}:
                now = None
                continue
            if amount and now is not None and not now.amount and (not self._known(clause) or kind == now.kind == ""):
                now.clauses.append(clause)
                now.amount = True
            elif amount and kind:
                lead = [one for one in waiting if self._leads(one)] or lead
                now = _Begun(kind, [clause], amount=True, lead=lead if kind == "hop" else [])
                waiting = []
                begun.append(now)
            elif not amount and kind and self._known(clause) and self._weighed_next(parts, at):
                lead = [one for one in waiting if self._leads(one)]
                now = _Begun(kind, [clause], amount=False, lead=lead if kind == "hop" else [])
                waiting = []
                begun.append(now)
            elif now is not None and self._goes_with(clause, now):
                now.clauses.append(clause)
            elif amount and now is not None and now.kind == "hop" and not self._words(clause):
                now = _Begun("hop", [clause], amount=True)
                begun.append(now)
            else:
                now = now if now is not None and not any(isinstance(one, Amount) for one in pieces) else None
                waiting.append(clause)
        return [one for one in begun if one.amount]

    @staticmethod
    def _packed(clause: Clause) -> bool:
        """Whether a clause tells of bottling, so that its sugar is for the fizz."""
        pieces = cut(clause.text, KINDS, frozenset({"package"}), of_pages())
        return any(isinstance(one, Phrase) and any(each.field for each in one.meanings) for one in pieces)

    def _leads(self, clause: Clause) -> bool:
        """Whether a clause in front of hops says when they go in."""
        return self._goes_with(clause, _Begun("hop", [], amount=True))

    def _weighed_next(self, parts: list[Clause], at: int) -> bool:
        """Whether the weight of what a clause names stands in the next clause."""
        for one in parts[at + 1 : at + 3]:
            pieces = cut(one.text, KINDS, frozenset())
            if any(isinstance(piece, Amount) and piece.kind in (*_AMOUNT_KINDS, Kind.SHARE) for piece in pieces):
                return not self._known(one)
        return False

    def _known(self, clause: Clause) -> bool:
        return any(one.kind in ("grist", "hop") for one in known_in(clause.text, 0, len(clause.text), self.names))

    @staticmethod
    def _words(clause: Clause) -> bool:
        from mashwright.paper.items import only_grammar

        pieces = cut(clause.text, KINDS, HOP_FIELDS)
        return any(isinstance(one, Rest) and not only_grammar(one.text, of_pages()) for one in pieces)

    def _goes_with(self, clause: Clause, now: _Begun) -> bool:
        """Whether a clause without an amount of its own says more of the line that is begun."""
        pieces = cut(clause.text, KINDS, frozenset({"topic", *HOP_FIELDS}), of_pages())
        if any(isinstance(one, Amount) and one.kind in _AMOUNT_KINDS for one in pieces):
            return False
        topics = {
            one.value for piece in pieces if isinstance(piece, Phrase) for one in piece.meanings if one.field == "topic"
        }
        fields = {one.field for piece in pieces if isinstance(piece, Phrase) for one in piece.meanings}
        amounts = {one.kind for one in pieces if isinstance(one, Amount)}
        if now.kind == "grist":
            return (
                bool(amounts & {Kind.BEER_COLOUR, Kind.SHARE})
                and amounts <= {Kind.BEER_COLOUR, Kind.SHARE, None}
                and not topics
            )
        if topics - {"hop-start", "hop-after", "each", "about", "boil", "mash", "rest", "addition", "preboil", "steep"}:
            return False
        if amounts & {Kind.VOLUME, Kind.GRAVITY, Kind.BEER_COLOUR, Kind.PACKS}:
            return False
        hop = fields & HOP_FIELDS or topics & {"hop-start", "hop-after"}
        return bool(
            hop
            or amounts & {Kind.TIME, Kind.SHARE, Kind.ALPHA_UNITS, Kind.BITTERNESS, None, Kind.TEMPERATURE}
            or _FROM().search(clause.text)
        )

    def _kind(self, clause: Clause, pieces: list[Piece], section: Section, last: str) -> str:
        """``grist`` or ``hop``, or "" where neither the names nor the section say which."""
        kinds = {one.kind for one in known_in(clause.text, 0, len(clause.text), self.names)} & {"grist", "hop"}
        if len(kinds) == 1:
            kind = kinds.pop()
            if section.name == "hops" and kind == "grist" and not _MALT().search(clause.text):
                return "hop"
            return kind
        if section.name in ("grist", "hops"):
            return "grist" if section.name == "grist" else "hop"
        if kinds:
            return (
                "hop"
                if any(isinstance(one, Amount) and one.kind in (Kind.TIME, Kind.SHARE) for one in pieces)
                else "grist"
            )
        if any(isinstance(one, Phrase) and any(each.value == "addition" for each in one.meanings) for one in pieces):
            return ""
        if _MALT().search(clause.text):
            return "grist"
        if _HOP().search(clause.text):
            return "hop"
        said = any(isinstance(one, Phrase) and any(each.field == "topic" for each in one.meanings) for one in pieces)
        return last if section.name == "" and not said and self._words(clause) else ""

    def _share_times(self, made: list[tuple[_Begun, Item]], section: Section) -> None:
        """Times that are said once for several: behind the last of those that *and* joins, or above all."""
        for at in range(len(made) - 2, -1, -1):
            (one, item), (after, next_item) = made[at], made[at + 1]
            if one.kind != "hop" or after.kind != "hop" or not after.clauses[0].joined or _timed(item):
                continue
            fields = {name: next_item.fields[name] for name in _TIMES if name in next_item.fields}
            item.fields.update(fields)
            made[at] = (one, item._replace(starts=next_item.starts, after=next_item.after))
        for at, (one, item) in enumerate(made):
            if one.kind != "hop" or _timed(item):
                continue
            if (
                self.lead
                and (found := hop_item(f"1 g Qqq, {self.lead}", lambda _: "", "Qqq")) is not None
                and _timed(found)
            ):
                item.fields.update({name: found.fields[name] for name in _TIMES if name in found.fields})
                made[at] = (one, item._replace(starts=found.starts, after=found.after))
            elif section.dry:
                item.fields["dry"] = "true"
        if section.dry:
            for one, item in made:
                if one.kind == "hop" and "boil" in item.fields:
                    item.fields["dry"] = item.fields.pop("boil")

    def finish(self) -> None:
        """Times that are counted from the start of the boil, once its length is known."""
        length = self.draft.get("boil", "for")
        for fields, starts, after in self.late:
            if starts and length is not None and "boil" not in fields:
                fields["boil"] = length
            elif after:
                _from_start(fields, after, length)
            if (starts or after) and not any(name in fields for name in _TIMES):
                when = f"{after} after the start" if after else "from the start"
                self.draft.comment("hops", f"{fields['hop']}: {when} of the boil; the text does not say how long it is")


def _from_start(fields: dict[str, str], after: str, length: str | None) -> None:
    """Minutes after the start of the boil as minutes before its end; they stay a word where the boil is not known."""
    counted, whole = _minutes(after), _minutes(length or "")
    if counted is None or "boil" in fields:
        return
    if whole is not None and 0 <= counted <= whole:
        left = whole - counted
        fields["boil"] = "flameout" if not left else (length or "") if not counted else f"{left:g} min"


def _minutes(text: str) -> float | None:
    from mashwright.measures.quantity import read_quantity
    from mashwright.measures.refusals import QuantityError

    try:
        return read_quantity(text, Kind.TIME).range.typical
    except QuantityError:
        return None


def _timed(item: Item) -> bool:
    return item.starts or bool(item.after) or any(name in item.fields for name in _TIMES)


def _spans(parts: list[Clause], left: tuple[str, ...]) -> list[tuple[int, int]]:
    """The places of clauses, but for the words that are not read."""
    found: list[tuple[int, int]] = []
    words = list(left)
    for clause in parts:
        holes = []
        for word in list(words):
            at = clause.text.find(word)
            if at >= 0:
                words.remove(word)
                holes.append((clause.start + at, clause.start + at + len(word)))
        begin = clause.start
        for start, end in sorted(holes):
            found.append((begin, start))
            begin = end
        found.append((begin, clause.end))
    return [one for one in found if one[0] < one[1]]


_BOILS = pattern(
    r"(?i)\b(?:boil|boiled|boiling|kochen|gekocht|ébullition|bouillir|koken|gekookt|koges|kogt|kokes|kokt|kochzeit)\b"
)
_MASSES = pattern(r"\d\s*(?:g|kg|oz|lbs?)\b")
_FROM = pattern(r"(?<!\w)T\s?\+?\d{1,3}(?!\w)")
