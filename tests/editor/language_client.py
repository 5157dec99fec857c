"""A client of the language server: JSON-RPC over the standard streams of its process, written with lsprotocol."""

import json
import os
import queue
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

from lsprotocol import types
from lsprotocol.converters import get_converter

CONVERTER = get_converter()
OURS = (sys.executable, "-m", "mashwright", "language-server", "--stdio")


class Client:
    """One server with its editor.

    Args:
        folder: in which the server runs.
        encodings: of positions, in the order in which the client would like them; None says nothing.
        versions: whether the client takes changes of one version of a text.
        command: what starts the server.
    """

    def __init__(
        self,
        folder: Path,
        encodings: list[str] | None = None,
        *,
        versions: bool = True,
        options: object = None,
        environment: dict[str, str] | None = None,
        command: tuple[str, ...] = OURS,
    ) -> None:
        self.process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            cwd=folder,
            env={**os.environ, **(environment or {})},
        )
        self.folder = folder
        self.said: list[str] = []
        self._answers: dict[int, queue.Queue[dict[str, Any]]] = {}
        self.published = 0
        self._told: dict[str, tuple[int | None, list[types.Diagnostic]]] = {}
        self._news = threading.Condition()
        self._number = 0
        self._lock = threading.Lock()
        threading.Thread(target=self._listen, daemon=True).start()
        self.errors: list[str] = []
        threading.Thread(target=self._overhear, daemon=True).start()
        general = types.GeneralClientCapabilities(position_encodings=encodings)  # type: ignore[arg-type]
        workspace = types.WorkspaceClientCapabilities(
            workspace_edit=types.WorkspaceEditClientCapabilities(document_changes=versions)
        )
        self.hello: types.InitializeResult = self.ask(
            types.INITIALIZE,
            types.InitializeParams(
                capabilities=types.ClientCapabilities(general=general, workspace=workspace),
                process_id=os.getpid(),
                root_uri=folder.as_uri(),
                initialization_options=options,
                workspace_folders=[types.WorkspaceFolder(folder.as_uri(), folder.name)],
            ),
        )
        self.tell(types.INITIALIZED, types.InitializedParams())

    def ask(self, method: str, params: object, timeout: float = 60.0) -> Any:
        """A request and its answer, by the type that the protocol gives it."""
        return self.answer(method, self.request(method, params), timeout)

    def request(self, method: str, params: object, *, taken_back: bool = False) -> int:
        """Only the question; its number. One that is taken back is so in the same breath."""
        with self._lock:
            self._number += 1
            number = self._number
        self._answers[number] = queue.Queue()
        asked = {"jsonrpc": "2.0", "id": number, "method": method, "params": CONVERTER.unstructure(params)}
        cancel = {"jsonrpc": "2.0", "method": types.CANCEL_REQUEST, "params": {"id": number}}
        self._send(asked, *([cancel] if taken_back else []))
        return number

    def answer(self, method: str, number: int, timeout: float = 60.0) -> Any:
        try:
            found = self._answers[number].get(timeout=timeout)
        except queue.Empty:
            raise TimeoutError(f"no answer to {method}; {''.join(self.errors)}") from None
        if "error" in found:
            raise LookupError(f"{method}: {found['error']}")
        return CONVERTER.structure(found, types.METHOD_TO_TYPES[method][1]).result  # type: ignore[union-attr, arg-type]

    def tell(self, method: str, params: object) -> None:
        """A notification."""
        self._send({"jsonrpc": "2.0", "method": method, "params": CONVERTER.unstructure(params)})

    def uri(self, name: str) -> str:
        return (self.folder / name).as_uri()

    def open(self, name: str, text: str, version: int = 1) -> list[types.Diagnostic]:
        """Open a text and wait for what is told of it."""
        item = types.TextDocumentItem(self.uri(name), "yaml", version, text)
        self.tell(types.TEXT_DOCUMENT_DID_OPEN, types.DidOpenTextDocumentParams(item))
        return self.told(name, version)

    def change(self, name: str, text: str, version: int) -> None:
        """Type: the whole text at once, as the server asks for it."""
        changed = types.VersionedTextDocumentIdentifier(version, self.uri(name))
        params = types.DidChangeTextDocumentParams(changed, [types.TextDocumentContentChangeWholeDocument(text)])
        self.tell(types.TEXT_DOCUMENT_DID_CHANGE, params)

    def close(self, name: str) -> None:
        closed = types.TextDocumentIdentifier(self.uri(name))
        self.tell(types.TEXT_DOCUMENT_DID_CLOSE, types.DidCloseTextDocumentParams(closed))

    def told(self, name: str, version: int | None, timeout: float = 60.0) -> list[types.Diagnostic]:
        """What is told of a version of a text; of None, what is told first by a server that does not say of which."""
        with self._news:
            if not self._news.wait_for(lambda: self._told.get(self.uri(name), (0, []))[0] == version, timeout):
                raise TimeoutError(f"nothing is told of version {version} of {name}; {self.errors}")
            return self._told[self.uri(name)][1]

    def becomes(self, name: str, rules: list[str], timeout: float = 20.0) -> bool:
        """Whether what is told of a text comes to be just the findings of these rules."""
        with self._news:
            return self._news.wait_for(
                lambda: [str(one.code) for one in self._told.get(self.uri(name), (None, []))[1]] == rules, timeout
            )

    def mends(self, name: str, where: types.Range | None = None, **only: Any) -> list[types.CodeAction]:
        """What is offered for a place, or for the whole text."""
        where = where or types.Range(types.Position(0, 0), types.Position(9999, 0))
        document = types.TextDocumentIdentifier(self.uri(name))
        params = types.CodeActionParams(document, where, types.CodeActionContext([], **only))
        return list(self.ask(types.TEXT_DOCUMENT_CODE_ACTION, params) or [])

    def quit(self) -> int:
        """Shut down and exit, as the protocol has it; the status of the process."""
        self.ask(types.SHUTDOWN, None)
        self.tell(types.EXIT, None)
        return self.process.wait(timeout=20)

    def _send(self, *messages: dict[str, Any]) -> None:
        bodies = [json.dumps(message).encode() for message in messages]
        assert self.process.stdin is not None
        self.process.stdin.write(b"".join(b"Content-Length: %d\r\n\r\n" % len(body) + body for body in bodies))
        self.process.stdin.flush()

    def _listen(self) -> None:
        stream = self.process.stdout
        assert stream is not None
        while header := stream.readline():
            length = 0
            while header.strip():
                name, _, value = header.partition(b":")
                length = int(value) if name.lower() == b"content-length" else length
                header = stream.readline()
            message = json.loads(stream.read(length))
            if "method" not in message:
                self._answers[message["id"]].put(message)
            elif message["method"] == types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS:
                params = CONVERTER.structure(message["params"], types.PublishDiagnosticsParams)
                with self._news:
                    self.published += 1
                    self._told[params.uri] = params.version, list(params.diagnostics)
                    self._news.notify_all()
            elif message["method"] in (types.WINDOW_LOG_MESSAGE, types.WINDOW_SHOW_MESSAGE):
                self.said.append(message["params"]["message"])

    def _overhear(self) -> None:
        assert self.process.stderr is not None
        for line in self.process.stderr:
            self.errors.append(line.decode())


def applied(text: str, edits: list[types.TextEdit], encoding: str = "utf-16") -> str:
    """A text with changes made as an editor makes them: from the last to the first, by the client's own counting."""
    lines = _lines(text)
    pieces = [
        (_offset(lines, edit.range.start, encoding), _offset(lines, edit.range.end, encoding), edit) for edit in edits
    ]
    for start, end, edit in sorted(pieces, key=lambda piece: piece[:2])[::-1]:
        text = text[:start] + edit.new_text + text[end:]
    return text


def covered(text: str, where: types.Range, encoding: str = "utf-16") -> str:
    """What a range covers."""
    lines = _lines(text)
    return text[_offset(lines, where.start, encoding) : _offset(lines, where.end, encoding)]


def position(text: str, index: int, encoding: str = "utf-16") -> types.Position:
    """Where a character of a text is."""
    before = _lines(text[:index] + "|")
    return types.Position(len(before) - 1, _units(before[-1][:-1], encoding))


def _lines(text: str) -> list[str]:
    lines, start = [], 0
    while start <= len(text):
        ends = [at for at in (text.find("\n", start), text.find("\r", start)) if at >= 0]
        end = min(ends, default=len(text))
        end += 2 if text[end : end + 2] == "\r\n" else 1
        lines.append(text[start:end])
        start = end
    return lines


def _offset(lines: list[str], where: types.Position, encoding: str) -> int:
    before = sum(map(len, lines[: where.line]))
    line = lines[where.line] if where.line < len(lines) else ""
    units = 0
    for count, letter in enumerate(line):
        if units >= where.character:
            return before + count
        units += _units(letter, encoding)
    return before + len(line)


def _units(text: str, encoding: str) -> int:
    widths = {"utf-8": 1, "utf-16": 2, "utf-32": 4}
    return len(text.encode(f"{encoding}-le" if encoding != "utf-8" else encoding)) // widths[encoding]
