"""An audit as it is printed."""

from mashwright.reporting.story import told_around
from mashwright.reviewing.results import Reviewed, Story

NOTHING = Story("", (), (), (), ())
LONG = "nothing to say of this one but that its line is a good deal longer than a narrow page is wide"


def printed(story: Story, *findings: str, width: int = 80) -> str:
    return "\n".join(told_around(Reviewed("old/a.yaml", "Leaf 3", ()), story, iter(findings), width))


def test_a_whole_story() -> None:
    story = Story(
        "an old book",
        ((2, '"2 cwt" is read as British hundredweights'),),
        (("OG", "1.064 SG (1.055 to 1.072)", "25 lb/barrel"), ("ABV", "5.3 % vol", "")),
        ("a yeast of 77 % attenuation, since none is stated",),
        ("the mash water (`water` at line 11)",),
    )
    assert printed(story, "old/a.yaml:7:1: warning: rule: a finding", "    its evidence") == (
        """\
Leaf 3, old/a.yaml
    source: an old book
How it was read
    line 2: "2 cwt" is read as British hundredweights
What it would be, brewed today
    OG: 1.064 SG (1.055 to 1.072); stated: 25 lb/barrel
    ABV: 5.3 % vol
What would not work today
old/a.yaml:7:1: warning: rule: a finding
    its evidence
What it does not say
    assumed: a yeast of 77 % attenuation, since none is stated
    missing: the mash water (`water` at line 11)
"""
    )


def test_a_recipe_of_which_nothing_is_known_or_found() -> None:
    assert printed(NOTHING) == "Leaf 3, old/a.yaml\nWhat would not work today\n    nothing found\n"


def test_a_narrow_page_wraps_all_but_the_findings() -> None:
    lines = printed(Story(LONG, (), (), (LONG,), ()), LONG, width=40).splitlines()
    assert LONG in lines
    assert max(len(line) for line in lines if line != LONG) <= 40


def test_what_would_steer_a_terminal_is_shown_as_its_escape() -> None:
    assert "\x1b" not in printed(Story("\x1b[31m", ((1, "\x1b"),), (("OG", "1", "\x1b"),), ("\x1b",), ("\x1b",)))
