"""Times the language server as an editor meets it: the first answer, an edit, and memory over many edits.

``python tests/benchmarks/editor.py [EDITS]`` prints the rows of the table in DEVELOPERS.md, and ends with status
1 where one is not met. Seconds are of the clock, medians unless it says otherwise: others on the machine lengthen them.
"""

import sys
import tempfile
import time
from pathlib import Path
from statistics import median, quantiles

sys.path.append(str(Path(__file__).parents[1] / "editor"))

from language_client import Client
from lsprotocol import types

SAMPLE = Path(__file__).parents[2] / "sample-recipes" / "house" / "harbour-wheat.yaml"
FIRST_S, EDIT_S, GROWN = 1.0, 0.05, 1.05
"""What must be: the first answer, an edit until its findings are there, and memory at the end beside the beginning."""


def memory_mib(client: Client) -> float:
    """Memory of the server, MiB; where the system shows it."""
    status = Path(f"/proc/{client.process.pid}/status").read_text()
    return int(status.partition("VmRSS:")[2].split()[0]) / 1024


def starts(rounds: int) -> list[float]:
    """Seconds from the start of the process to its first answer, what it can do."""
    taken = []
    for _ in range(rounds):
        with tempfile.TemporaryDirectory() as folder:
            begun = time.perf_counter()
            client = Client(Path(folder))
            taken.append(time.perf_counter() - begun)
            client.quit()
    return taken


def edits(client: Client, text: str, first: int, number: int) -> list[float]:
    """Seconds from a key to the findings of the text that it gives, each waited for."""
    taken = []
    for version in range(first, first + number):
        typed = text.replace("60 min", f"{30 + version % 60} min", 1) + "#" * (version % 40)
        begun = time.perf_counter()
        client.change("a.yaml", typed, version)
        client.told("a.yaml", version)
        taken.append(time.perf_counter() - begun)
    return taken


def main() -> int:
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    first = median(starts(7))
    text = SAMPLE.read_text()
    with tempfile.TemporaryDirectory() as folder:
        client = Client(Path(folder))
        client.open("a.yaml", text)
        edits(client, text, 2, 200)  # until all is loaded and what is kept is full
        ask_all(client)
        begun = memory_mib(client)
        taken = edits(client, text, 202, number)
        ask_all(client)
        grown = memory_mib(client) / begun
        status = client.quit()
    late = quantiles(taken, n=100)[94]
    print(f"| first answer after the start | {first:.2f} s | {FIRST_S:g} s |")
    shown = f"{median(taken) * 1000:.0f} ms, 19 of 20 within {late * 1000:.0f} ms"
    print(f"| an edit until its findings are shown | {shown} | {EDIT_S * 1000:.0f} ms |")
    print(f"| memory after {number} edits | {begun:.0f} MiB, {grown:.3f} times that at the end | {GROWN:g} times |")
    return int(first > FIRST_S or median(taken) > EDIT_S or grown > GROWN or status != 0)


def ask_all(client: Client) -> None:
    """What an editor asks beside: so that what that loads is there at the beginning and at the end."""
    where = types.TextDocumentIdentifier(client.uri("a.yaml"))
    at = types.Position(12, 12)
    client.ask(types.TEXT_DOCUMENT_HOVER, types.HoverParams(where, at))
    client.ask(types.TEXT_DOCUMENT_COMPLETION, types.CompletionParams(where, at))
    client.ask(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL, types.DocumentSymbolParams(where))
    client.mends("a.yaml")


if __name__ == "__main__":
    sys.exit(main())
