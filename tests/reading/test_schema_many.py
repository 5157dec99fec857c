"""A file full of fields that nothing knows: bounded in words and in time."""

import time

from mashwright.reading.document import read_document
from mashwright.reading.schema import MOST_UNKNOWN, check_fields


def test_many_unknown_fields_are_told_together() -> None:
    text = "recipe: A\nbatch: 20 l\ngrist:\n  - {grain: pale malt, weight: 4 kg}\n"
    text += "".join(f"field{number}: {number}\n" for number in range(400))
    began = time.process_time()
    problems = check_fields(read_document(text), "recipe")
    assert time.process_time() - began < 1
    assert len(problems) == MOST_UNKNOWN + 1
    last = problems[-1]
    assert last.path == (f"field{MOST_UNKNOWN}",)
    assert last.message == "360 fields from here on are not known either; mend or leave out the first of them"
