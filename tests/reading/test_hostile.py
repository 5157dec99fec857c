"""Inputs that are made to take a reader down: each ends within a second and 200 MB, in one plain finding."""

import json
import subprocess
import sys

import pytest

LIMIT_S = 1.0
LIMIT_MB = 200

RUN = """
import json, os, resource, sys, time
from mashwright.reading.document import read_document
from mashwright.reading.schema import check_fields
from mashwright.recipe.build import build_recipe
text = eval(sys.argv[1])
began = time.process_time()
document = read_document(text)
check_fields(document, "recipe")
build_recipe(document)
took_s = time.process_time() - began
if os.path.exists("/proc/self/status"):  # the other counts what the process that started this one had
    with open("/proc/self/status") as status:
        peak_mb = next(int(line.split()[1]) for line in status if line.startswith("VmHWM")) / 1024
else:
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20
told = [(*document.place(problem.span)[:2], problem.message) for problem in document.problems]
print(json.dumps([told, took_s, peak_mb]))
"""

DEEP = "lists or braces stand more than 64 deep here; a recipe needs five"
MANY = "there are more than 20000 values up to here; a recipe needs a few hundred, so split the file"
LONG = "`{}` has {} characters; at most 200 are read; write it shorter, and the rest under `notes`"
NO_NAME = "a list or braces cannot be the name of a field; quote the text, or write a name before the colon"


@pytest.mark.parametrize(
    ("expression", "told"),
    [
        ("'[' * 2**20", [[1, 65, DEEP]]),
        ("'{' * 2**20", [[1, 2, NO_NAME]]),
        ("'{a: ' * 2**18", [[1, 257, DEEP]]),
        ("'- ' * 2**19", [[1, 129, DEEP]]),
        ("'? ' * 2**19", [[1, 3, NO_NAME]]),
        ("'a: [' + '1,' * 2**19 + ']'", [[1, 39999, MANY]]),
        ("'- 1\\n' * 2**18", [[20000, 3, MANY]]),
        ("''.join(f'a{n}: 1\\n' for n in range(100_000))", [[10000, 8, MANY]]),
        (
            "'a0: &a0 [x]\\n' + ''.join(f'a{n}: &a{n} [' + f'*a{n-1},' * 9 + ']\\n' for n in range(1, 40))",
            [
                [
                    6,
                    10,
                    "*a4 repeats so much that there are more than 20000 values up to here; write out what is meant",
                ]
            ],
        ),
        ("'a: ' + 'x' * 2**20", [[1, 1, LONG.format("a", 2**20)]]),
        ("'a: \"' + 'x ' * 2**19 + '\"'", [[1, 1, LONG.format("a", 2**20)]]),
        ("'a: |\\n' + ' x\\n' * 2**18", [[1, 1, LONG.format("a", 2**19)]]),
        ("'notes: |\\n' + ' x\\n' * 2**18", []),
        ("'a: &' + 'x' * 2**20 + ' 1'", []),
        (
            "'#' * 2**20",
            [
                [
                    1,
                    1,
                    (
                        "this file has only spaces and comments; a recipe starts with a line such as"
                        " recipe: House Bitter"
                    ),
                ]
            ],
        ),
        ("'\\n' * 2**20 + 'a'", []),
        ("'a: ' + '9' * 2**20", [[1, 1, LONG.format("a", 2**20)]]),
        ("'a: 1e' + '9' * 2**20", [[1, 1, LONG.format("a", 2**20 + 2)]]),
        ("'grist:\\n' + '  - {grain: x, weight: ' + '1 ' * 20000 + 'kg}'", [[2, 16, LONG.format("weight", 40_002)]]),
        ("'batch: ' + '1 1/2 lb ' * 5000", [[1, 1, LONG.format("batch", 44_999)]]),
        ("'batch: ' + '(' * 40000", [[1, 1, LONG.format("batch", 40_000)]]),
    ],
)
def test_a_hostile_text(expression: str, told: list[object]) -> None:
    done = subprocess.run([sys.executable, "-c", RUN, expression], capture_output=True, timeout=30, check=True)
    found, took_s, peak_mb = json.loads(done.stdout)
    assert found == told
    assert took_s < LIMIT_S
    assert peak_mb < LIMIT_MB
