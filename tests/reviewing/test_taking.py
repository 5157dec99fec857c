"""What a rule gives, field by field: what is not as the contract says is a fault in words, and nothing else."""

from collections.abc import Callable

import pytest

import mashwright
from mashwright.budgets import GATHERED_BYTES, ROWS, RULE_FINDINGS, TEXT_CHARACTERS
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.results import Fault, Result

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]
Install = Callable[..., None]

RECIPE = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 2 kg}\n"
SOUND = '''
"""Is it odd?"""
from mashwright.knobs import Knob, one_change
from mashwright.rule import Edit, Evidence, Finding, Level

class Text(str):
    pass

def check(brew, limits):
    path, level, message, more = ("grist", 0), Level.ERROR, "it is odd", {}
    ODD
    yield Finding(path, level, message, **more)
'''
WENT_ON = "the other rules went on; please report it to those who make ours"
OF_ITS = "of its finding is"
STEP = "it must be a key (str) or an index from 0 (int)"
UNSENT = "which cannot be sent between processes"
PLAIN = "give plain values"


def fault_of(source: str, install: Install, collection: Make) -> tuple[list[Result], list[Fault]]:
    """What comes of a recipe where an odd rule is at work, and the faults; a sound rule is at work too."""
    install(ours={"odd": source, "quiet": SOUND.replace("ODD", "")})
    made = collection({"a.yaml": RECIPE})
    (reviewed,) = made.paths((".",))
    assert [one.rule for one in reviewed.results if one.rule != "odd"] == ["quiet"]
    return [one for one in reviewed.results if one.rule == "odd"], made.faults


@pytest.mark.parametrize(
    ("odd", "told"),
    [
        ("path = ['grist', 0]", f"the path {OF_ITS} (list); it must be a tuple of at most 128 keys and indexes"),
        ("path = 'grist'", f"the path {OF_ITS} 'grist' (str); it must be a tuple of at most 128 keys and indexes"),
        ("path = ('a',) * 129", f"the path {OF_ITS} (tuple); it must be a tuple of at most 128 keys and indexes"),
        ("path = ('a' * 2**20,) * 2", "the path has keys that are together longer than any recipe"),
        (
            "path = ('grist', 1.0)",
            f"the path has a step, which {OF_ITS} 1.0 (float); it must be a key (str) or an index from 0 (int)",
        ),
        (
            "path = ('grist', True)",
            f"the path has a step, which {OF_ITS} True (bool); it must be a key (str) or an index from 0 (int)",
        ),
        (
            "path = ('grist', -1)",
            f"the path has a step, which {OF_ITS} -1 (int); it must be a key (str) or an index from 0 (int)",
        ),
        (
            "path = ('grist', 10**5000)",
            f"the path has a step, which {OF_ITS} (int); it must be a key (str) or an index from 0 (int)",
        ),
        (
            "level = 'error'",
            f"the level {OF_ITS} 'error' (str); it must be one of Level.NOTE, Level.WARNING and Level.ERROR",
        ),
        ("level = 3", f"the level {OF_ITS} 3 (int); it must be one of Level.NOTE, Level.WARNING and Level.ERROR"),
        ("message = None", f"the message {OF_ITS} None (NoneType); it must be a text (str)"),
        ("message = b'odd'", f"the message {OF_ITS} (bytes); it must be a text (str)"),
        ("message = Text('odd')", f"the message {OF_ITS} (Text); it must be a text (str)"),
        ("message = ' '", "the message of its finding is empty; say what will not work"),
        ("more['gap'] = float('nan')", f"the gap {OF_ITS} nan (float); it must be a finite number"),
        ("more['gap'] = float('-inf')", f"the gap {OF_ITS} -inf (float); it must be a finite number"),
        ("more['gap'] = 10**400", f"the gap {OF_ITS} (int); it must be a finite number"),
        ("more['gap'] = '0.5'", f"the gap {OF_ITS} '0.5' (str); it must be a number (float)"),
        ("more['gap'] = True", f"the gap {OF_ITS} True (bool); it must be a number (float)"),
        ("more['evidence'] = [Evidence('sum', 1.0)]", f"the evidence {OF_ITS} (list); it must be a tuple"),
        (
            "more['evidence'] = ('sum',)",
            f"the evidence {OF_ITS} 'sum' (str); it must be rows of Evidence, such as row(figure) gives",
        ),
        (
            "more['evidence'] = (Evidence(5, 1.0),)",
            f"the label in the evidence {OF_ITS} 5 (int); it must be a text (str)",
        ),
        (
            "more['evidence'] = (Evidence('sum', None),)",
            f"the value in the evidence {OF_ITS} None (NoneType); it must be a number (float)",
        ),
        (
            "more['evidence'] = (Evidence('sum', float('inf')),)",
            f"the value in the evidence {OF_ITS} inf (float); it must be a finite number",
        ),
        (
            "more['evidence'] = (Evidence('sum', 1.0, None),)",
            f"the unit in the evidence {OF_ITS} None (NoneType); it must be a text (str)",
        ),
        (
            "more['evidence'] = (Evidence('sum', 1.0, 'kg', 'grist'),)",
            f"the path in the evidence {OF_ITS} 'grist' (str); it must be a tuple of keys and indexes, or None",
        ),
        (
            "more['evidence'] = (Evidence('sum', 1.0, 'kg', (None,)),)",
            f"the path in the evidence has a step, which {OF_ITS} None (NoneType); {STEP}",
        ),
        (
            "more['related'] = ('grist',)",
            f"the related {OF_ITS} 'grist' (str); it must be a tuple of at most 128 keys and indexes",
        ),
        ("more['related'] = None", f"the related {OF_ITS} None (NoneType); it must be a tuple"),
        (
            "more['knobs'] = ('more malt',)",
            f"the knobs {OF_ITS} 'more malt' (str); it must be made by more_of, less_of, one_change and their like",
        ),
        ("more['knobs'] = one_change((), '')", f"the knobs {OF_ITS} (Knob); it must be a tuple"),
        (
            "more['knobs'] = (Knob(1.5, lambda n: (), lambda n: ''),)",
            f"the count in a knob {OF_ITS} 1.5 (float); it must be a whole number from 0",
        ),
        (
            "more['knobs'] = (Knob(1, (), lambda n: ''),)",
            f"the edits and say in a knob {OF_ITS} (tuple); it must be functions",
        ),
        ("yield 'it is odd'", "it yields 'it is odd' (str), which is not a Finding"),
        ("yield None", "it yields None (NoneType), which is not a Finding"),
        ("yield object()", "it yields (object), which is not a Finding"),
    ],
)
def test_a_field_that_is_not_as_the_contract_says(odd: str, told: str, install: Install, collection: Make) -> None:
    results, faults = fault_of(SOUND.replace("ODD", odd), install, collection)
    assert results == []
    assert faults == [Fault("odd", "a.yaml", f"{told}; {WENT_ON}")]


@pytest.mark.parametrize(
    ("knob", "told"),
    [
        (
            "Knob(1, lambda n: [Edit(('batch',), '10 l')], lambda n: 'less')",
            f"the edits of a knob {OF_ITS} (list); it must be a tuple",
        ),
        (
            "Knob(1, lambda n: ('10 l',), lambda n: 'less')",
            f"the edits of a knob {OF_ITS} '10 l' (str); it must be an Edit",
        ),
        ("one_change((Edit((), '10 l'),), 'less')", "the path of an edit is empty; name what it changes"),
        (
            "one_change((Edit('batch', '10 l'),), 'less')",
            f"the path of an edit {OF_ITS} 'batch' (str); it must be a tuple of at most 128 keys and indexes",
        ),
        (
            "one_change((Edit(('batch',), 10),), 'less')",
            f"the text of an edit {OF_ITS} 10 (int); it must be a text (str)",
        ),
        (
            "one_change((Edit(('batch',), '10 l'),), None)",
            f"the text of a knob {OF_ITS} None (NoneType); it must be a text (str)",
        ),
        ("Knob(1, lambda n: 1 / 0, lambda n: '')", "ZeroDivisionError: division by zero"),
        (
            "Knob(10**30, lambda n: (), lambda n: '')",
            "the count in a knob of its finding is (int); it must be a whole number from 0",
        ),
    ],
)
def test_a_knob_that_cannot_be_turned_is_told_and_the_finding_stays(
    knob: str, told: str, install: Install, collection: Make
) -> None:
    results, faults = fault_of(SOUND.replace("ODD", f"more['knobs'] = ({knob},)"), install, collection)
    assert [(one.message, one.remedies) for one in results] == [("it is odd", ())] * ("count" not in told)
    assert faults == [Fault("odd", "a.yaml", f"{told}; {WENT_ON}")]


def test_a_message_is_one_line_of_bounded_length(install: Install, collection: Make) -> None:
    odd = "message = 'it\\nis\\r\\nodd\\u2028here ' + 'x' * 3000"
    odd += "; more['evidence'] = (Evidence('a\\nb', 'c\\nd', 'k\\ng'),)"
    (result,), faults = fault_of(SOUND.replace("ODD", odd), install, collection)
    assert faults == []
    assert result.message.startswith(r"it\nis\r\nodd\u2028here xxx")
    assert result.message.endswith("xxx...")
    assert len(result.message) < TEXT_CHARACTERS + 20
    assert [(row.label, row.value, row.unit) for row in result.evidence] == [(r"a\nb", r"c\nd", r"k\ng")]


def test_of_many_rows_it_is_said_how_many_there_are(install: Install, collection: Make) -> None:
    odd = "more['evidence'] = (Evidence('sum', 1.0),) * 1001; more['related'] = (('batch',),) * 1001"
    (result,), faults = fault_of(SOUND.replace("ODD", odd), install, collection)
    assert faults == []
    assert [row.label for row in result.evidence] == ["sum"] * ROWS + ["further rows, not shown"]
    assert result.evidence[-1].value == 1001 - ROWS
    assert len(result.related) == ROWS


@pytest.mark.parametrize(
    ("raised", "told"),
    [
        ("Open(5, ('grist',))", "what its Unknown says is missing is 5 (int); it must be a text (str)"),
        (
            "Open('weights', ('grist', 1.5))",
            f"the path of an Unknown has a step, which {OF_ITS} 1.5 (float); {STEP}",
        ),
        ("Unknown('weights', 5)", "TypeError: object of type 'int' has no len()"),
    ],
)
def test_what_is_missing_is_looked_at_too(raised: str, told: str, install: Install, collection: Make) -> None:
    odd = f"from mashwright.recipe.stated import Open, Unknown; raise {raised}"
    results, faults = fault_of(SOUND.replace("ODD", odd), install, collection)
    assert results == []
    assert faults == [Fault("odd", "a.yaml", f"{told}; {WENT_ON}")]


def test_places_that_do_not_exist_are_told_at_the_nearest_that_does(install: Install, collection: Make) -> None:
    odd = "path = ('grist', 9, 'no such', 'x~/y'); more['related'] = (('mash', 'rests', 5),)"
    (result,), faults = fault_of(SOUND.replace("ODD", odd), install, collection)
    assert faults == []
    assert (result.pointer, result.place.line, result.related) == (
        "/grist/9/no such/x~0~1y",
        3,
        (("/mash/rests/5", 1),),
    )


SAYS = """
from mashwright.rule import say
SAYS = {"odd": "{weight} is odd", "more": "{count:line} more", "bad": "{count:.1f} more"}
SAYS |= {"open": "it is {odd", "item": "{odd[0]}"}
"""
GIVEN = "give a text, a number, a quantity or what said() or number() gives"
FORMS = "has a place that is not {name}, {name:a} or, of a whole number, {name:noun}; write {{ for a brace"


@pytest.mark.parametrize(
    ("message", "told"),
    [
        ("say('od', weight=3)", "its finding says 'od' (str), which is not in its SAYS"),
        ("say('odd', heavy=3)", "its sentence odd lacks a value for {weight}"),
        ("say('odd', weight=3).and_then(say('more'))", "its sentence more lacks a value for {count}"),
        ("say('more', count='few')", f"its sentence more {FORMS}"),
        ("say('odd', weight=3).and_then(say('bad', count='two'))", f"its sentence bad {FORMS}"),
        ("say('open', odd=3)", f"its sentence open {FORMS}"),
        ("say('item', odd='abc')", f"its sentence item {FORMS}"),
        ("say('odd', weight=[3])", f"its sentence odd is given a list; {GIVEN}"),
        ("say('odd', weight=None)", f"its sentence odd is given a NoneType; {GIVEN}"),
        (
            "say('odd', weight=3).and_then(say('more', count=Range.exact(3)))",
            f"its sentence more is given a Range; {GIVEN}",
        ),
        ("say('odd', weight=grist_weight(brew))", f"its sentence odd is given a Figure; {GIVEN}"),
    ],
)
def test_a_sentence_that_cannot_be_filled(message: str, told: str, install: Install, collection: Make) -> None:
    imports = "    from mashwright.measures import Range\n    from mashwright.figures.grist import grist_weight\n"
    source = SOUND.replace("\n    ODD", f"\n    message = {message}")
    source = source.replace("def check(brew, limits):\n", f"{SAYS}\ndef check(brew, limits):\n{imports}")
    found, faults = fault_of(source, install, collection)
    assert found == []
    assert [fault.message for fault in faults] == [f"{told}; {WENT_ON}"]


def test_whole_numbers_and_what_only_the_runner_fills_are_taken(install: Install, collection: Make) -> None:
    odd = "more.update(gap=1, evidence=(Evidence('sum', 2),), remedies=('mine',), rule='theirs')"
    (result,), faults = fault_of(SOUND.replace("ODD", odd), install, collection)
    assert faults == []
    assert (result.rule, result.gap, result.evidence[0].value, result.remedies) == ("odd", 1.0, 2.0, ())


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("return None", "TypeError: 'NoneType' object is not iterable"),
        ("return 5", "TypeError: 'int' object is not iterable"),
        (
            "while True: yield Finding(('batch',), Level.NOTE, 'again')",
            f"it yields more than {RULE_FINDINGS} findings of one recipe",
        ),
        ("raise Unspeakable", "Unspeakable"),
        (
            "raise ValueError('a\\nb\\x1b[31m\\u202e' + 'x' * 1000)",
            "ValueError: a b\\x1b[31m\\u202e" + "x" * 188 + "...",
        ),
        ("return check(brew, limits)", "RecursionError: maximum recursion depth exceeded"),
        ("raise MemoryError", "MemoryError"),
        ("raise SystemExit(0)", "SystemExit: 0"),
        ("raise KeyboardInterrupt", "KeyboardInterrupt"),
        ("raise GeneratorExit", "GeneratorExit"),
        ("raise StopIteration", "StopIteration"),
        ("raise BaseException('no')", "BaseException: no"),
        ("import sys; sys.exit('bye')", "SystemExit: bye"),
        ("exit()", "SystemExit"),
    ],
)
def test_whatever_a_rule_raises_is_its_fault(body: str, told: str, install: Install, collection: Make) -> None:
    source = f'''
"""Does it end?"""
from mashwright.rule import Finding, Level

class Unspeakable(Exception):
    def __str__(self):
        raise KeyboardInterrupt

def check(brew, limits):
    {body}
'''
    results, faults = fault_of(source, install, collection)
    assert results == []
    (fault,) = faults
    assert (fault.rule, fault.path) == ("odd", "a.yaml")
    assert fault.message.startswith(told)
    assert fault.message.endswith(f"; {WENT_ON}")
    assert len(fault.message.splitlines()) == 1


GATHERING = '''
"""Is it gathered?"""
from mashwright.rule import Finding, Level

class Odd:
    def __reduce__(self):
        raise RuntimeError("not me")

class Gone:
    def __reduce__(self):
        return int, ("no number",)

def gather(brew):
    return VALUE

def check_collection(gathered, limits):
    FOUND
    return [(path, Finding(("grist",), Level.ERROR, f"{value!r:.20}")) for path, value in gathered]
'''


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ("lambda: 0", "gather gives (function), which cannot be sent between processes ("),
        ("(n for n in range(3))", "gather gives (generator), which cannot be sent between processes ("),
        (
            "Odd()",
            "gather gives (Odd), which cannot be sent between processes (RuntimeError: not me); give plain values",
        ),
        (
            "Gone()",
            f"gather gives (Gone), {UNSENT} (ValueError: invalid literal for int() with base 10: 'no number'); {PLAIN}",
        ),
        ("'x' * 300_000", f"gather keeps 300005 bytes of one recipe, more than {GATHERED_BYTES}; keep less"),
        ("1 / 0", "ZeroDivisionError: division by zero"),
    ],
)
def test_what_cannot_be_gathered(value: str, told: str, install: Install, collection: Make) -> None:
    install(ours={"odd": GATHERING.replace("VALUE", value).replace("FOUND", "pass")})
    made = collection({"a.yaml": RECIPE})
    assert [one.results for one in made.paths((".",))] == [()]
    (fault,) = made.faults
    assert (fault.rule, fault.path) == ("odd", "a.yaml")
    assert fault.message.startswith(told)
    assert fault.message.endswith(WENT_ON)


PAIR = "which is not a pair of a path (str) and a Finding"


@pytest.mark.parametrize(
    ("found", "told"),
    [
        ("return None", "TypeError: 'NoneType' object is not iterable"),
        ("return ['a.yaml']", f"check_collection yields 'a.yaml' (str), {PAIR}"),
        ("return [Finding(('grist',), Level.ERROR, 'odd')]", f"check_collection yields (Finding), {PAIR}"),
        ("return [(None, Finding(('grist',), Level.ERROR, 'odd'))]", f"check_collection yields (tuple), {PAIR}"),
        ("return [('a.yaml', 'odd')]", "it yields 'odd' (str), which is not a Finding"),
        (
            "return [('a.yaml', Finding('grist', Level.ERROR, 'odd'))]",
            f"the path {OF_ITS} 'grist' (str); it must be a tuple of at most 128 keys and indexes",
        ),
        (
            "return [('/etc/passwd', Finding((), Level.ERROR, 'odd'))]",
            "it names a file that is neither a gathered recipe nor the brewhouse of one",
        ),
        (
            "return [('elsewhere/brewhouse.yaml', Finding((), Level.ERROR, 'odd'))]",
            "it names a file that is neither a gathered recipe nor the brewhouse of one",
        ),
        (
            "from itertools import repeat; return repeat(('a.yaml', Finding((), Level.ERROR, 'odd')))",
            f"it yields more than {RULE_FINDINGS + 1} findings of 1 recipes",
        ),
        ("raise SystemExit(0)", "SystemExit: 0"),
        ("raise KeyboardInterrupt", "KeyboardInterrupt"),
    ],
)
def test_what_a_rule_about_the_collection_must_not_yield(
    found: str, told: str, install: Install, collection: Make
) -> None:
    install(ours={"odd": GATHERING.replace("VALUE", "5").replace("FOUND", found)})
    made = collection({"a.yaml": RECIPE})
    assert [one.results for one in made.paths((".",))] == [()]
    assert made.faults == [Fault("odd", "", f"{told}; {WENT_ON}")]


@pytest.mark.parametrize("value", ["{'a': [1, (2.5, None)]}", "frozenset({'a'})", "brew.recipe.grist[0].weight.range"])
def test_what_can_be_sent_is_gathered(value: str, install: Install, collection: Make) -> None:
    install(ours={"odd": GATHERING.replace("VALUE", value).replace("FOUND", "pass")})
    made = collection({"a.yaml": RECIPE})
    assert [len(one.results) for one in made.paths((".",))] == [0, 1]
    assert made.faults == []


def test_a_rules_own_test_is_told_the_same(install: Install) -> None:
    from types import ModuleType

    module = ModuleType("odd")
    exec(SOUND.replace("ODD", "more['gap'] = float('nan')"), module.__dict__)
    with pytest.raises(ValueError, match=r"^the gap of its finding is nan \(float\); it must be a finite number$"):
        mashwright.try_rule(module, RECIPE)
