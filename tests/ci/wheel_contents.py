"""The wheel holds what git tracks of the three packages, its licence and its metadata, and nothing else.

usage: wheel_contents.py WHEEL, in a clone of the project
"""

import subprocess
import sys
from zipfile import ZipFile

ROOTS = ("linter", "rules", "schema")
METADATA = {"METADATA", "RECORD", "WHEEL", "entry_points.txt", "licenses/linter/LICENSE"}


def tracked() -> set[str]:
    listed = subprocess.run(["git", "ls-files", "-z", *ROOTS], capture_output=True, text=True, check=True).stdout
    files = {name for name in listed.split("\0") if name}
    return {name.partition("/")[2] for name in files} - {"LICENSE"}


def main(wheel: str) -> int:
    with ZipFile(wheel) as opened:
        names = opened.namelist()
        licence = next((name for name in names if name.endswith("/LICENSE")), "")
        empty = not licence or b"WITHOUT WARRANTY OF ANY KIND" not in opened.read(licence)
    folder = next(name for name in names if ".dist-info/" in name).partition("/")[0]
    expected = tracked() | {f"{folder}/{name}" for name in METADATA}
    for name in sorted(expected - set(names)):
        print(f"the wheel lacks {name}")
    for name in sorted(set(names) - expected):
        print(f"the wheel holds {name}, which nobody asked for")
    if len(names) != len(set(names)):
        print("the wheel holds a file twice")
    if empty:
        print("the wheel holds no licence text")
    return int(set(names) != expected or len(names) != len(set(names)) or empty)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
