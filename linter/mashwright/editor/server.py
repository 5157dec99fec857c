"""The server itself: takes the client's messages, has the desk work on them, and sends what comes of it."""

import asyncio
import logging
import os
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, BinaryIO, TypeVar

from lsprotocol import types
from msgspec import Struct
from pygls.exceptions import JsonRpcException
from pygls.lsp.server import LanguageServer
from pygls.uris import from_fs_path, to_fs_path

from mashwright import __version__
from mashwright.crash import of_file
from mashwright.editor.asked import Asked, is_house
from mashwright.editor.buffer import Buffer, buffer
from mashwright.signals import heed_no_more

if TYPE_CHECKING:
    from mashwright.editor.desk import Desk
    from mashwright.reading.nodes import Span

T = TypeVar("T")

HINTS = frozenset(("share", "ibu", "target"))
"""Figures that stand beside a recipe, each kind by the name under which it is switched."""
REQUEST_FAILED = -32803
"""What the protocol calls a question that is understood and cannot be answered."""
QUIET_S = 0.02
"""How long a text is left alone before it is reviewed, so that keys in a row are reviewed once; judgement."""


class Open(Struct):
    """One text that the client has open.

    Attributes:
        path: absolute, or what comes nearest to one.
        task: the review that waits or is at work.
    """

    uri: str
    path: str
    version: int
    buffer: Buffer
    task: "asyncio.Task[None] | None" = None


class Server(LanguageServer):
    """A server for one client, from its first message to its last."""

    def __init__(self) -> None:
        # whole texts at each change: a recipe is short, and no count of lines or letters can part from the client's
        super().__init__(
            "mashwright", __version__, text_document_sync_kind=types.TextDocumentSyncKind.Full, max_workers=2
        )
        self.texts: dict[str, Open] = {}
        self.worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="desk")
        self._desk = self.worker.submit(_set_up)  # the client need not wait for it to be told what it can ask
        self.was_shut_down = False
        self.hints = HINTS
        self._said: set[str] = set()

    @property
    def encoding(self) -> str:
        """What the client counts characters in."""
        return str(getattr(self.workspace.position_encoding, "value", self.workspace.position_encoding))

    def shutdown(self) -> None:
        """End, without waiting for whoever still waits for a message or is at work."""
        self.worker.shutdown(wait=False, cancel_futures=True)
        if self._thread_pool is not None:
            self._thread_pool.shutdown(wait=False, cancel_futures=True)
            self._thread_pool = None
        super().shutdown()  # type: ignore[no-untyped-call]

    @property
    def desk(self) -> "Desk":
        """Where the work is done; for the worker alone, who has set it up before all else."""
        return self._desk.result()

    def asked(self, text: Open) -> Asked:
        """A text as the desk is asked about it now."""
        houses = {one.path: one.buffer.text for one in self.texts.values() if is_house(one.path)}
        return Asked(text.path, text.buffer.text, houses)

    def choose_hints(self, settings: object) -> None:
        """Switch hints by what the client sets: ``hints`` is true, false, or a list of those that are wanted."""
        wanted = field_of(settings, "hints")
        if isinstance(wanted, bool):
            self.hints = HINTS if wanted else frozenset()
        elif isinstance(wanted, list | tuple):
            self.hints = HINTS & {str(one) for one in wanted}

    def uri_of(self, path: str) -> str:
        """The client's own name of a file, where it has it open."""
        return next((one.uri for one in self.texts.values() if one.path == path), None) or str(from_fs_path(path))

    def buffer_of(self, path: str, text: str) -> Buffer:
        """A text with its places; that of an open file as the client has it."""
        opened = next((one.buffer for one in self.texts.values() if one.path == path), None)
        return opened if opened is not None and opened.text == text else buffer(text, self.encoding)

    async def work(self, work: Callable[[], T], otherwise: T, path: str) -> T:
        """Have something done by the desk.

        Args:
            otherwise: the answer where the program cannot take the text, which is told.
            path: of the text.
        """

        def done() -> T:
            try:
                return work()
            except BaseException as error:  # noqa: BLE001  (the end of a rule's time too; no text ends the server)
                from mashwright.reviewing.plugins import ConfigurationError

                sentence = str(error) if isinstance(error, ConfigurationError) else of_file(error, "text")
                loop.call_soon_threadsafe(self.say_once, f"{path}: {sentence}")
                return otherwise

        loop = asyncio.get_running_loop()
        return await loop.run_in_executor(self.worker, done)

    def say_once(self, sentence: str) -> None:
        """Tell something of the program itself, once."""
        if sentence not in self._said:
            self._said.add(sentence)
            self.window_log_message(types.LogMessageParams(types.MessageType.Warning, f"mashwright: {sentence}"))

    def take(self, uri: str, version: int, text: str) -> None:
        """A text is open, or has changed; what hangs on it is reviewed anew."""
        self._forget()
        before = self.texts.get(uri)
        opened = Open(uri, path_of(uri), version, buffer(text, self.encoding), before.task if before else None)
        self.texts[uri] = opened
        self.later(opened)
        if is_house(opened.path):
            self.again(besides=uri)

    def _forget(self) -> None:
        """Let go of what the library keeps of messages that want no answer: a thousand keys would take 1.5 MB."""
        kept = self.protocol._request_futures  # noqa: SLF001  (it has no other door)
        for number in [number for number, future in kept.items() if future.done()]:
            del kept[number]

    def again(self, besides: str = "") -> None:
        """Review the open texts once more, since what counts for them may have changed."""
        for one in self.texts.values():
            if one.uri != besides:
                self.later(one)

    def later(self, text: Open) -> None:
        """Review a text once it is left alone; a review that still waits, or is of an earlier version, is given up."""
        if text.task is not None:
            text.task.cancel()
        text.task = asyncio.ensure_future(self._reviewed(text))

    async def _reviewed(self, text: Open) -> None:
        await asyncio.sleep(QUIET_S)
        asked = self.asked(text)
        told = await self.work(lambda: self.desk.review(asked, remedies=False), None, text.path)
        if self.texts.get(text.uri) is not text:
            return
        from mashwright.editor.telling import diagnostic

        for fault in told.faults if told is not None else ():
            self.say_once(f"{fault.path}: {fault.message}")
        found = [diagnostic(text.buffer, text.uri, one) for one in (told.results if told is not None else ())]
        self.text_document_publish_diagnostics(types.PublishDiagnosticsParams(text.uri, found, version=text.version))

    @property
    def takes_versions(self) -> bool:
        """Whether the client takes changes of one version of a text only."""
        workspace = self.client_capabilities.workspace
        edit = workspace.workspace_edit if workspace is not None else None
        return bool(edit is not None and edit.document_changes)


def _set_up() -> "Desk":
    from mashwright.editor.desk import Desk

    return Desk()


def path_of(uri: str) -> str:
    """The path of a text; one that lies nowhere counts as in the current folder."""
    path = to_fs_path(uri)
    return os.path.abspath(path or f"{uri.rpartition(':')[2].rpartition('/')[2]}.yaml")


def made() -> Server:
    """A server that knows what it can be asked."""
    server = Server()

    @server.feature(types.SHUTDOWN)
    def _shut_down(*_: object) -> None:
        server.was_shut_down = True

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    def _opened(params: types.DidOpenTextDocumentParams) -> None:
        one = params.text_document
        server.take(one.uri, one.version, one.text)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    def _changed(params: types.DidChangeTextDocumentParams) -> None:
        uri = params.text_document.uri
        server.take(uri, params.text_document.version, server.workspace.get_text_document(uri).source)

    @server.feature(types.TEXT_DOCUMENT_DID_SAVE)
    def _saved(params: types.DidSaveTextDocumentParams) -> None:
        if is_house(path_of(params.text_document.uri)):
            server.again()

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    def _changed_on_disk(params: types.DidChangeWatchedFilesParams) -> None:
        if any(is_house(path_of(one.uri)) for one in params.changes):
            server.again()

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def _closed(params: types.DidCloseTextDocumentParams) -> None:
        closed = server.texts.pop(params.text_document.uri, None)
        if closed is None:
            return
        if closed.task is not None:
            closed.task.cancel()
        server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(closed.uri, []))
        if is_house(closed.path):
            server.again()

    @server.feature(
        types.TEXT_DOCUMENT_CODE_ACTION, types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])
    )
    async def _mends(params: types.CodeActionParams) -> list[types.CodeAction]:
        text = server.texts.get(params.text_document.uri)
        only = params.context.only
        kinds = types.CodeActionKind
        if text is None or (only and not {kinds.Empty, kinds.QuickFix} & set(only)):
            return []
        asked = server.asked(text)
        told = await server.work(lambda: server.desk.review(asked, remedies=True), None, text.path)
        from mashwright.editor.telling import mends, span_of

        where = span_of(text.buffer, params.range)
        version = text.version if server.takes_versions else None
        return list(mends(text.buffer, text.uri, version, told.results if told is not None else (), where))

    @server.feature(types.TEXT_DOCUMENT_COMPLETION, types.CompletionOptions(trigger_characters=[" ", "{", "[", "-"]))
    async def _completed(params: types.CompletionParams) -> list[types.CompletionItem]:
        text = server.texts.get(params.text_document.uri)
        if text is None:
            return []
        asked, index = server.asked(text), text.buffer.index(params.position.line, params.position.character)

        def work() -> list[types.CompletionItem]:
            from mashwright.editor.telling import items

            return items(text.buffer, server.desk.offers(asked, index))

        return await server.work(work, [], text.path)

    @server.feature(types.TEXT_DOCUMENT_HOVER)
    async def _told(params: types.HoverParams) -> types.Hover | None:
        text = server.texts.get(params.text_document.uri)
        if text is None:
            return None
        asked, index = server.asked(text), text.buffer.index(params.position.line, params.position.character)
        found = await server.work(lambda: server.desk.hover(asked, index), None, text.path)
        if found is None:
            return None
        from mashwright.editor.telling import range_of

        content = types.MarkupContent(types.MarkupKind.Markdown, found.markdown)
        return types.Hover(content, range_of(text.buffer, found.span))

    _of_the_whole(server)
    _of_lots(server)
    return server


def _of_the_whole(server: Server) -> None:
    """What is asked about a whole text: its outline, what folds, the figures beside it."""

    @server.feature(types.INITIALIZE)
    def _begun(params: types.InitializeParams) -> None:
        server.choose_hints(params.initialization_options)

    @server.feature(types.WORKSPACE_DID_CHANGE_CONFIGURATION)
    def _configured(params: types.DidChangeConfigurationParams) -> None:
        server.choose_hints(field_of(params.settings, "mashwright"))

    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    async def _outlined(params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
        text = server.texts.get(params.text_document.uri)
        if text is None:
            return []
        asked = server.asked(text)

        def work() -> list[types.DocumentSymbol]:
            from mashwright.editor.telling import symbols

            return symbols(text.buffer, server.desk.parts(asked))

        return await server.work(work, [], text.path)

    @server.feature(types.TEXT_DOCUMENT_FOLDING_RANGE)
    async def _folded(params: types.FoldingRangeParams) -> list[types.FoldingRange]:
        text = server.texts.get(params.text_document.uri)
        if text is None:
            return []
        asked = server.asked(text)
        nothing: list[Span] = []
        spans = await server.work(lambda: server.desk.folds(asked), nothing, text.path)
        lines = sorted({(text.buffer.position(one.start).line, text.buffer.position(one.end).line) for one in spans})
        return [types.FoldingRange(first, last) for first, last in lines if last > first]

    @server.feature(types.TEXT_DOCUMENT_INLAY_HINT)
    async def _hinted(params: types.InlayHintParams) -> list[types.InlayHint]:
        text = server.texts.get(params.text_document.uri)
        if text is None or not server.hints:
            return []
        asked, kinds = server.asked(text), server.hints

        def work() -> list[types.InlayHint]:
            from mashwright.editor.telling import inlays, span_of

            return inlays(text.buffer, server.desk.hints(asked, kinds), span_of(text.buffer, params.range))

        return await server.work(work, [], text.path)


def _of_lots(server: Server) -> None:
    """What is asked about a lot: where its certificate is, and another name for it."""

    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    async def _certificate(params: types.DefinitionParams) -> types.Location | None:
        text = server.texts.get(params.text_document.uri)
        if text is None:
            return None
        asked, index = server.asked(text), text.buffer.index(params.position.line, params.position.character)
        found = await server.work(lambda: server.desk.certificate(asked, index), None, text.path)
        if found is None:
            return None
        from mashwright.editor.telling import range_of

        path, house, span = found
        return types.Location(server.uri_of(path), range_of(server.buffer_of(path, house), span))

    @server.feature(types.TEXT_DOCUMENT_RENAME)
    async def _renamed(params: types.RenameParams) -> types.WorkspaceEdit | None:
        text = server.texts.get(params.text_document.uri)
        if text is None:
            return None
        asked, index = server.asked(text), text.buffer.index(params.position.line, params.position.character)
        folders = tuple(path_of(uri) for uri in server.workspace.folders)
        texts = {one.path: one.buffer.text for one in server.texts.values()}
        found = await server.work(
            lambda: server.desk.renamed(asked, index, params.new_name, folders, texts), None, text.path
        )
        if found is None or found.refused:
            raise JsonRpcException(found.refused if found is not None else "the lot cannot be renamed", REQUEST_FAILED)
        from mashwright.editor.lots import written
        from mashwright.editor.telling import edits_of, range_of

        name, files = written(params.new_name), []
        for path, (old, spans) in found.places.items():
            where = server.buffer_of(path, old)
            edits = [types.TextEdit(range_of(where, span), name) for span in spans]
            opened = next((one for one in server.texts.values() if one.path == path), None)
            files.append((server.uri_of(path), opened.version if opened is not None else None, edits))
        return edits_of(files, versions=server.takes_versions)


def field_of(settings: object, name: str) -> object:
    """A field of what the client sends as settings, whatever it is; None where it has none."""
    return settings.get(name) if isinstance(settings, dict) else getattr(settings, name, None)


def serve(source: BinaryIO, sink: BinaryIO) -> int:
    """Serve one client until it says goodbye or is gone.

    Args:
        source, sink: what it says, and what is said to it.

    Returns:
        0 where it asked to shut down first, else 1, as the protocol has it.
    """
    logging.getLogger("pygls").addHandler(logging.NullHandler())
    logging.getLogger("pygls").propagate = False
    heed_no_more()  # nothing is ever half written here, and what a signal raised within a callback would be lost
    server = made()
    server.start_io(source, sink)
    sys.stdout = sys.stderr  # which the library has closed
    return 0 if server.was_shut_down else 1
