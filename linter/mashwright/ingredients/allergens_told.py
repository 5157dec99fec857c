"""Whether those who drink a beer are told of what some of them must avoid.

A word to drinkers is the thing's own, its group's in name or style, or that in a sentence of the notes which says that
the beer contains it or speaks of allergens.
"""

from mashwright.ingredients.allergens import GLUTEN_CEREALS, Group, groups_of
from mashwright.words.claims import Speech
from mashwright.words.negation import claim_taken_back, lacks
from mashwright.words.tokens import sentences, words_of
from mashwright.words.vocabulary import plain_mentions

_LOOSE = frozenset({"nut"})  # said of the taste or the colour of beers that hold none
_TOLD_OF_TOO = GLUTEN_CEREALS | {"gluten", "sulfite", "sulphite"}


def is_told(speech: Speech, group: Group, name: str) -> bool:
    """Whether a drinker is told of a thing: by its own word, by that of its group, or by a word on allergens.

    Args:
        speech: what the recipe says to drinkers.
        group: one that the thing belongs to.
        name: of the thing.
    """
    words = words_of(name)
    return any(
        _sentence_tells(sentence, group, words, where) for where, text in speech.texts for sentence in sentences(text)
    )


def _sentence_tells(sentence: str, group: Group, name: frozenset[str], where: str) -> bool:
    said = sentence.split()
    own, of_group = (name & group.own_words) - _LOOSE, {*group.told} | words_of(group.of)
    if any(word.startswith("allerg") for word in said):
        return _on_allergens(sentence, own | of_group, group.name)
    whole_name = name if len(name) > 1 and name <= {*said} else frozenset()
    saying = plain_mentions("contains", where, sentence) and not plain_mentions("tastes", where, sentence)
    start = len(sentence) - len(sentence.lstrip())
    for at, word in enumerate(said):
        told = word in of_group and (saying or not (where == "notes" or word in _LOOSE))
        if told or word in own or word in whole_name:
            # cream ale, but milk ale is of milk
            other_thing = group.unless - {"ale"} if word in of_group else group.unless
            beside = {*said[max(0, at - 1) : at], *said[at + 1 : at + 2]}
            if beside.isdisjoint(other_thing) and not claim_taken_back(sentence, start):
                return True
        start = sentence.find(" ", start) + 1
    return False


def _on_allergens(sentence: str, told: set[str] | frozenset[str], group: str) -> bool:
    """A sentence on allergens or on those who are allergic tells of what it names, or of all where it names nothing."""
    said = words_of(sentence)
    named = {one.name for word in said for one in groups_of(word)}
    if group in named or not told.isdisjoint(said):
        return True
    if named or not _TOLD_OF_TOO.isdisjoint(said):
        return False
    of_things = any(word.startswith("allergen") for word in said)
    return not (of_things and lacks(sentence))
