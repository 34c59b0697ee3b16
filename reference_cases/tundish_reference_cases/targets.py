"""Ways to reach a tool: a named callable, HTTP, or a process that reads and writes JSON lines.

No target ever sees what a case expects.
"""

from __future__ import annotations

import http.client
import importlib
import json
import shlex
import socket
import subprocess
import threading
import urllib.error
import urllib.parse
import urllib.request
from queue import Empty, Queue
from typing import Any, Protocol

from tundish_reference_cases.judge import Answer

PROTOCOL = 1
SECONDS = 30.0
_NOT_A_REFUSAL = frozenset({401, 403, 405, 406, 407, 408, 413, 415, 429})
"""The door was shut: nothing was said about the inputs."""


class TargetError(RuntimeError):
    """The tool cannot be reached at all."""


class Target(Protocol):
    """Anything that answers a request of a calculation."""

    name: str

    def ask(self, case_id: str, calculation: str, request: dict[str, Any]) -> Answer:
        """Answer one request."""

    def close(self) -> None:
        """Let go of the tool."""


def _from_status(status: int, body: Any) -> Answer:
    if not isinstance(body, dict):
        return Answer("errored", reason=f"status {status}: not a JSON object")
    if status == 200:  # noqa: PLR2004
        return Answer("value", body)
    if status in {404, 501, 503}:
        return Answer("not-supported", body, str(body.get("detail", status)))
    if 400 <= status < 500 and status not in _NOT_A_REFUSAL:  # noqa: PLR2004
        return Answer("refused", body)
    return Answer("errored", body, f"status {status}: {body.get('detail', '')}")


class CallableTarget:
    """A Python callable ``module:name(calculation, request) -> (status, body)``."""

    def __init__(self, target: str) -> None:
        """Import it."""
        self.name = target
        module, _, function = target.partition(":")
        try:
            self._call = getattr(importlib.import_module(module), function)
        except (ImportError, AttributeError, ValueError) as error:
            message = f"{target} cannot be imported: {error}"
            raise TargetError(message) from error

    def ask(self, case_id: str, calculation: str, request: dict[str, Any]) -> Answer:
        """Call it."""
        del case_id
        try:
            status, body = self._call(calculation, request)
        except Exception as error:  # noqa: BLE001  (whatever the tool does is its answer)
            return Answer("errored", reason=f"{type(error).__name__}: {error}")
        return _from_status(status, body)

    def close(self) -> None:
        """Nothing to let go of."""


class HttpTarget:
    """A service that answers ``POST <base>/v1/calculations/<id>``.

    ``mapping`` (for services of other shapes) may give ``paths`` (calculation -> path), ``inputs``
    (our pointer -> theirs) and ``outputs`` (our pointer -> theirs).
    """

    def __init__(
        self, base: str, mapping: dict[str, Any] | None = None, seconds: float = SECONDS
    ) -> None:
        """Keep the address; nothing is sent yet."""
        if not base.startswith(("http://", "https://")):
            message = f"{base} is not an http address"
            raise TargetError(message)
        self.name = base
        self._base = base.rstrip("/")
        self._mapping = mapping or {}
        self._seconds = seconds

    def reach(self) -> None:
        """Raise :class:`TargetError` when nothing listens at the address."""
        where = urllib.parse.urlsplit(self._base)
        port = where.port or (443 if where.scheme == "https" else 80)
        try:
            socket.create_connection((where.hostname or "", port), timeout=self._seconds).close()
        except OSError as error:
            message = f"nothing answers at {self._base}: {error}"
            raise TargetError(message) from None

    def ask(self, case_id: str, calculation: str, request: dict[str, Any]) -> Answer:
        """Post it."""
        del case_id
        path = self._mapping.get("paths", {}).get(calculation, f"/v1/calculations/{calculation}")
        body = translate(request, self._mapping.get("inputs", {}))
        sent = urllib.request.Request(  # noqa: S310  (the scheme was checked)
            self._base + path,
            data=json.dumps(body).encode(),
            headers={"Content-Type": "application/json", "Accept": "application/json"},
        )
        try:
            with urllib.request.urlopen(sent, timeout=self._seconds) as answer:  # noqa: S310
                status, text = answer.status, answer.read()
        except urllib.error.HTTPError as error:
            status, text = error.code, error.read()
        except TimeoutError:
            return self._late()
        except (OSError, http.client.HTTPException) as error:
            if isinstance(getattr(error, "reason", None), TimeoutError):
                return self._late()
            return Answer("errored", reason=f"{type(error).__name__}: {error}")
        try:
            found = json.loads(text)
        except ValueError:
            return Answer("errored", reason=f"status {status}: the answer is not JSON")
        outputs = self._mapping.get("outputs", {})
        if status == 200 and outputs:  # noqa: PLR2004
            found = translate(found, {theirs: ours for ours, theirs in outputs.items()})
        return _from_status(status, found)

    def _late(self) -> Answer:
        return Answer("timed-out", reason=f"no answer in {self._seconds:g} s")

    def close(self) -> None:
        """Nothing to let go of."""


def translate(document: Any, pointers: dict[str, str]) -> Any:
    """Move members from one pointer to another; what is not named stays where it is."""
    if not pointers:
        return document
    result = json.loads(json.dumps(document))
    for source, target in pointers.items():
        *above, last = source.split("/")[1:]
        here = result
        for part in above:
            here = here.get(part) if isinstance(here, dict) else None
        if not isinstance(here, dict) or last not in here:
            continue
        value = here.pop(last)
        *above, last = target.split("/")[1:]
        here = result
        for part in above:
            here = here.setdefault(part, {})
        here[last] = value
    return result


class ProcessTarget:
    """A program that speaks one JSON object a line: ``start``, ``run``, ``stop``."""

    def __init__(self, command: str, seconds: float = SECONDS) -> None:
        """Start it and shake hands."""
        self._seconds = seconds
        try:
            self._process = subprocess.Popen(  # noqa: S603  (the user names the program)
                shlex.split(command),
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                text=True,
                encoding="utf-8",
            )
        except OSError as error:
            message = f"{command} cannot be started: {error}"
            raise TargetError(message) from error
        self._lines: Queue[str | None] = Queue()
        self._out = ""
        threading.Thread(target=self._read, daemon=True).start()
        told = self._exchange({"do": "start", "protocol": PROTOCOL})
        if isinstance(told, Answer) or told.get("protocol") != PROTOCOL:
            self.close()
            why = told.reason if isinstance(told, Answer) else f"it speaks {told.get('protocol')}"
            message = f"{command} did not answer start with protocol {PROTOCOL}: {why}"
            raise TargetError(message)
        self.name = f"{told.get('name', command)} {told.get('version', '')}".strip()
        self._supported = told.get("calculations")

    def _read(self) -> None:
        assert self._process.stdout is not None
        try:
            for line in self._process.stdout:
                self._lines.put(line)
        except ValueError:  # closed, or bytes that are not UTF-8
            pass
        self._lines.put(None)

    def _exchange(self, message: dict[str, Any]) -> dict[str, Any] | Answer:
        """Send a line and read one; an :class:`Answer` says why there is none."""
        assert self._process.stdin is not None
        try:
            self._process.stdin.write(json.dumps(message) + "\n")
            self._process.stdin.flush()
            line = self._lines.get(timeout=self._seconds)
        except Empty:
            return self._end("timed-out", f"no answer in {self._seconds:g} s")
        except OSError:
            line = None
        if line is None:
            return self._end("errored", "the process has ended")
        try:
            found = json.loads(line)
        except ValueError:
            return self._end("errored", f"not JSON: {line[:80]!r}")
        if not isinstance(found, dict):
            return self._end("errored", f"not a JSON object: {line[:80]!r}")
        return found

    def _end(self, kind: str, reason: str) -> Answer:
        # A tool out of step would have its next answer read as that of another case.
        self._process.kill()
        self._out = self._out or reason
        return Answer(kind, reason=reason)

    def ask(self, case_id: str, calculation: str, request: dict[str, Any]) -> Answer:
        """Send one ``run`` line and read one answer line."""
        if self._supported is not None and calculation not in self._supported:
            return Answer("not-supported", reason="not among the tool's calculations")
        if self._out:
            return Answer("errored", reason=f"the process was ended before: {self._out}")
        message = {"do": "run", "case": case_id, "calculation": calculation, "request": request}
        found = self._exchange(message)
        if isinstance(found, Answer):
            return found
        if found.get("case") != case_id:
            return self._end("errored", f"answered case {found.get('case')!r}, not {case_id!r}")
        kind, body = found.get("answer"), found.get("body", {})
        if kind not in {"value", "refused", "skipped", "errored", "not-supported"}:
            return Answer("errored", reason=f"unknown answer {kind!r}")
        if not isinstance(body, dict):
            return Answer("errored", reason="the body is not a JSON object")
        return Answer(kind, body, str(found.get("reason", "")))

    def close(self) -> None:
        """Ask it to stop, then end it."""
        if self._process.poll() is None:
            try:
                assert self._process.stdin is not None
                self._process.stdin.write('{"do": "stop"}\n')
                self._process.stdin.flush()
                self._process.wait(timeout=2)
            except (OSError, subprocess.TimeoutExpired):
                self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe is not None:
                pipe.close()
