"""What a shell gets when it asks for completions."""

from collections.abc import Callable
from typing import Any

import pytest

Process = Callable[..., Any]


def offered(process: Process, words: str) -> list[str]:
    """The words that bash is offered for the last one of a line."""
    asked = {"_MASHWRIGHT_COMPLETE": "bash_complete", "COMP_WORDS": words, "COMP_CWORD": str(len(words.split()) - 1)}
    ended = process(**asked)
    assert (ended.status, ended.err) == (0, "")
    return [line.split(",", 1)[1] for line in ended.out.split()]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("mashwright rev", ["review"]),
        ("mashwright review --form", ["--format"]),
        ("mashwright review --format sa", ["sarif"]),
        ("mashwright review --stop-at w", ["warning"]),
        ("mashwright explain enz", ["enzyme-sufficiency"]),
        ("mashwright names ho", ["hops"]),
        ("mashwright names hops ho", []),
    ],
)
def test_commands_options_and_choices(process: Process, words: str, expected: list[str]) -> None:
    assert offered(process, words) == expected


@pytest.mark.parametrize("words", ["review ho", "figures ho", "review --baseline ho", "review --output ho"])
def test_paths_are_left_to_the_shell(process: Process, words: str) -> None:
    line = f"mashwright {words}"
    asked = {"_MASHWRIGHT_COMPLETE": "bash_complete", "COMP_WORDS": line, "COMP_CWORD": str(len(line.split()) - 1)}
    assert process(**asked).out == "file,ho\n"


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_the_script_for_a_shell(process: Process, shell: str) -> None:
    ended = process(_MASHWRIGHT_COMPLETE=f"{shell}_source")
    assert ended.status == 0
    assert f"_MASHWRIGHT_COMPLETE={shell}_complete" in ended.out
    assert ended.err == ""


def test_what_was_typed_comes_back_harmless(process: Process) -> None:
    typed = "mashwright review ho\x1b\u202e\udcff"
    asked = {"_MASHWRIGHT_COMPLETE": "bash_complete", "COMP_WORDS": typed, "COMP_CWORD": "2"}
    ended = process(**asked)
    assert (ended.status, ended.out, ended.err) == (0, "file,ho\\x1b\\u202e\\udcff\n", "")


@pytest.mark.parametrize("asked", ["bash_nothing", "csh_source"])
def test_what_no_shell_asks(asked: str, process: Process) -> None:
    assert process(_MASHWRIGHT_COMPLETE=asked) == (1, "", "")
