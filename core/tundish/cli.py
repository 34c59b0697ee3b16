"""The command ``tundish``: tables for people, JSON for programs, an exit status that means something.

0: fine. 1: refused, or a verdict of not-met, dangerous or incomplete. 2: misuse of the command.
Everything heavy is imported in the command that needs it, so that a cold start stays short.
"""

from __future__ import annotations

import argparse
import json
import sys
from typing import TYPE_CHECKING, Any, Final

from tundish._about import __version__

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tundish.contract import Node
    from tundish.host import Host
    from tundish.sheet import Block

COMMANDS_GROUP: Final = "tundish.commands"
LARGEST_FILE: Final = 10_000_000
FINE, UNMET, MISUSE = 0, 1, 2
_STOPPING: Final = frozenset({"not-met", "dangerous", "incomplete"})


class UsageError(Exception):
    """The command line cannot be understood; shown with exit status 2."""


# --- in and out -----------------------------------------------------------------------------------


def _print_json(value: Any) -> None:
    print(json.dumps(value, indent=2, ensure_ascii=False))  # noqa: T201


def _draw(blocks: Iterable[Block], *, markdown: bool = False) -> None:
    from tundish.drawing import as_markdown, in_terminal  # noqa: PLC0415

    if markdown:
        sys.stdout.write(as_markdown(blocks))
        return
    from rich.console import Console  # noqa: PLC0415

    in_terminal(blocks, Console(highlight=False, soft_wrap=False))


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        message = "a member stands twice in one object"
        raise UsageError(message)
    return found


def _no_constant(name: str) -> float:
    message = f"{name} is not JSON"
    raise UsageError(message)


def parse_json(text: str, where: str) -> Any:
    """Read JSON strictly: no member twice, no NaN, no infinity."""
    try:
        return json.loads(text, object_pairs_hook=_unique, parse_constant=_no_constant)
    except UsageError as error:
        message = f"{where}: {error}"
        raise UsageError(message) from None
    except (ValueError, RecursionError) as error:
        message = f"{where} is not JSON: {error}"
        raise UsageError(message) from None


def _read(path: str) -> Any:
    try:
        if path == "-":
            text = sys.stdin.read(LARGEST_FILE + 1)
        else:
            with open(path, encoding="utf-8") as file:  # noqa: PTH123  (pathlib costs start-up)
                text = file.read(LARGEST_FILE + 1)
    except (OSError, UnicodeDecodeError) as error:
        message = f"{path} cannot be read: {error}"
        raise UsageError(message) from None
    if len(text) > LARGEST_FILE:
        message = f"{path} is larger than {LARGEST_FILE} characters"
        raise UsageError(message)
    return parse_json(text, path)


def _host() -> Host:
    from tundish.host import default_host  # noqa: PLC0415

    return default_host()


def _assign(inputs: Any, path: str, text: str) -> None:
    """Put one ``name=value`` in place; dots go into groups and lists.

    A row is named or numbered: ``rooms.kitchen.area=12 m2``, ``rooms.0.area=12 m2``.
    """
    try:
        value = json.loads(text, object_pairs_hook=_unique)
    except (ValueError, RecursionError):
        value = text
    if not isinstance(inputs, (dict, list)):
        message = f"{path} cannot be put into inputs that are no object"
        raise UsageError(message)
    here = inputs
    *parents, last = path.split(".")
    for index, part in enumerate(parents):
        following = [*parents, last][index + 1]
        if isinstance(here, list):
            here = _item(here, part, path)
        else:
            here = here.setdefault(part, [] if _is_index(following) else {})
        if not isinstance(here, (dict, list)):
            message = f"{path}: {part} holds a value, not fields"
            raise UsageError(message)
    if isinstance(here, list):
        if _is_index(last) and int(last) == len(here):
            here.append(value)
            return
        here[int(last) if _is_index(last) and int(last) < len(here) else _beyond(path)] = value
    else:
        here[last] = value


def _is_index(part: str) -> bool:
    return part.isascii() and part.isdigit()


def _beyond(path: str) -> int:
    message = f"{path}: rows go by name, or are numbered from 0, without gaps"
    raise UsageError(message)


def _item(rows: list[Any], part: str, path: str) -> Any:
    for row in rows:
        if isinstance(row, dict) and row.get("name") == part:
            return row
    if not _is_index(part) or int(part) > len(rows):
        _beyond(path)
    if int(part) == len(rows):
        rows.append({})
    return rows[int(part)]


# --- commands -------------------------------------------------------------------------------------


def _list(options: argparse.Namespace) -> int:
    host = _host()
    host.load_all()
    plugins = [plugin.as_json() for plugin in host.plugins]
    broken = {name for name in host.entries if _unavailable(host, name)}
    if options.json:
        entries = [
            {
                "id": entry.id,
                "title": entry.title,
                "family": entry.family,
                "summary": entry.summary,
                "available": entry.id not in broken,
            }
            for entry, _ in host.entries.values()
        ]
        _print_json({"calculations": sorted(entries, key=lambda e: e["id"]), "plugins": plugins})
        return FINE
    from tundish.sheet import Grid, Heading, Verdict  # noqa: PLC0415

    rows: list[tuple[str, ...]] = [
        (
            entry.id,
            entry.questions[0] if entry.questions else entry.title,
            plugin.name,
            "UNAVAILABLE" if entry.id in broken else "",
        )
        for _, (entry, plugin) in sorted(host.entries.items())
    ]
    blocks: list[Block] = [
        Heading("Calculations"),
        Grid(("calculation", "what it answers", "plugin", ""), rows),
    ]
    for plugin in host.plugins:
        if not plugin.loaded:
            reason = f"Plugin {plugin.name} did not load, at {plugin.stage}: {plugin.reason}"
            blocks.append(Verdict("not-met", reason))
        blocks += [Verdict("not-met", f"Plugin {plugin.name}: {text}") for text in plugin.problems]
    _draw(blocks)
    return FINE


def _unavailable(host: Host, name: str) -> bool:
    from tundish.host import PluginUnavailableError  # noqa: PLC0415

    try:
        host.runner(name)
    except PluginUnavailableError:
        return True
    return False


def _runner(host: Host, name: str) -> Any:
    from tundish.host import CalculationUnknownError, PluginUnavailableError  # noqa: PLC0415

    try:
        return host.runner(name)
    except CalculationUnknownError:
        close = sorted(entry for entry in host.entries if name[:4] in entry)
        hint = f" Near it: {', '.join(close)}." if close else ""
        message = f"there is no calculation {name!r}; see 'tundish list'.{hint}"
        raise UsageError(message) from None
    except PluginUnavailableError as error:
        raise UsageError(str(error)) from None


def _describe(options: argparse.Namespace) -> int:
    from tundish.describe_blocks import describe_blocks  # noqa: PLC0415
    from tundish.schemas import describe  # noqa: PLC0415

    host = _host()
    told = describe(_runner(host, options.calculation).calculation, host)
    if options.json:
        _print_json(told)
    else:
        _draw(describe_blocks(told))
    return FINE


def _schema(options: argparse.Namespace) -> int:
    from tundish.schemas import exact_schema  # noqa: PLC0415

    _print_json(exact_schema(_runner(_host(), options.calculation).calculation))
    return FINE


def _request(options: argparse.Namespace, runner: Any) -> dict[str, Any]:
    request: dict[str, Any] = {}
    if options.example:
        request = {"inputs": json.loads(json.dumps(runner.calculation.example))}
        request["region"] = runner.calculation.example_region
    if options.input is not None:
        given = _read(options.input)
        if not isinstance(given, dict):
            message = f"{options.input}: a request is a JSON object"
            raise UsageError(message)
        request.update(given if "inputs" in given else {"inputs": given})
    inputs = request.setdefault("inputs", {})
    for pair in options.values:
        name, sign, text = pair.partition("=")
        if not sign:
            message = f"{pair!r} is not name=value"
            raise UsageError(message)
        _assign(inputs, name, text)
    for member in ("method", "region", "date", "units"):
        value = getattr(options, member)
        if value is not None:
            request[member] = value
    return request


def _calculate(options: argparse.Namespace) -> int:
    from tundish.answering import answer  # noqa: PLC0415

    host = _host()
    runner = _runner(host, options.calculation)
    request = _request(options, runner)
    parts = {"working", "sources"} if options.json or options.working else set()
    if options.charts:
        parts.add("charts")
    status, body = answer(options.calculation, request, parts=parts, host=host)
    if options.json:
        _print_json(body)
    elif status == 200:  # noqa: PLR2004
        from tundish.sheet import record_blocks  # noqa: PLC0415

        node = runner.calculation.outputs_node
        _draw(record_blocks(body, node, working=options.working), markdown=options.markdown)
    else:
        _refusal(body)
    return UNMET if status != 200 or body["verdict"] in _STOPPING else FINE  # noqa: PLR2004


def _refusal(problem: dict[str, Any]) -> None:
    """Tell on stderr what was wrong, where, and how to put it right."""
    from tundish.words import visible  # noqa: PLC0415

    for error in problem.get("errors", [problem]):
        where = f" at {visible(error['pointer'])}" if error.get("pointer") else ""
        print(f"refused{where}: {error['detail']}", file=sys.stderr)  # noqa: T201
        print(f"  {error['remedy']} [{error['code']}]", file=sys.stderr)  # noqa: T201
        facts = error.get("facts", {})
        if isinstance(facts.get("accepted"), list):
            words = _nearest_first(facts, error)
            print(f"  Accepted: {', '.join(words)}", file=sys.stderr)  # noqa: T201


def _nearest_first(facts: dict[str, Any], error: dict[str, Any]) -> list[str]:
    """Put what is spelt most like what was given in front of the rest."""
    from difflib import get_close_matches  # noqa: PLC0415

    words = [str(word) for word in facts["accepted"]]
    given = facts.get("asked") or facts.get("given") or error.get("pointer", "").rpartition("/")[2]
    near = get_close_matches(str(given).strip("'"), words, n=3)
    return [*near, *[word for word in words if word not in near]]


def nodes_of(record: dict[str, Any], host: Host) -> dict[str, Node]:
    """Return the outputs' trees of every calculation that a job's record answers."""
    return {
        entry["calculation"]: host.runner(entry["calculation"]).calculation.outputs_node
        for entry in record["calculations"].values()
        if entry["status"] == "answered"
    }


def print_job(
    record: dict[str, Any], host: Host, *, markdown: bool = False, working: bool = False
) -> int:
    """Print a job's record and return the exit status that goes with it."""
    from tundish.sheet import job_blocks  # noqa: PLC0415

    _draw(job_blocks(record, nodes_of(record, host), working=working), markdown=markdown)
    return UNMET if record["verdict"] in _STOPPING else FINE


def _template(host: Host, name: str) -> dict[str, Any]:
    found = host.templates.get(name)
    if found is None:
        message = f"there is no job template {name!r}; there are: {', '.join(host.templates)}"
        raise UsageError(message)
    return host.template(name)


def _job(options: argparse.Namespace) -> int:
    from tundish.jobs import run_job  # noqa: PLC0415
    from tundish.problems import RefusedRequest  # noqa: PLC0415

    host = _host()
    if options.template is not None:
        document: Any = _template(host, options.template)
    elif options.file is not None:
        document = _read(options.file)
    else:
        message = "give a job document, or --template NAME for one to start from"
        raise UsageError(message)
    if options.document:
        _print_json(document)
        return FINE
    parts = frozenset({"working", "sources"} if options.json or options.working else ())
    try:
        record = run_job(document, host, parts=parts)
    except RefusedRequest as refused:
        if options.json:
            _print_json(refused.as_json())
        else:
            _refusal(refused.as_json())
        return UNMET
    if options.json:
        _print_json(record)
        return UNMET if record["verdict"] in _STOPPING else FINE
    return print_job(record, host, markdown=options.markdown, working=options.working)


# --- the command line -----------------------------------------------------------------------------


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="tundish",
        description="Calculations for converting a house to sealed heating and unvented hot water.",
        epilog="Further commands come from installed packages: serve, verify.",
    )
    parser.add_argument("--version", action="version", version=f"tundish {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)

    one = commands.add_parser("list", help="what can be calculated, and which plugins loaded")
    one.add_argument("--json", action="store_true", help="print JSON")
    one.set_defaults(run=_list)

    one = commands.add_parser("describe", help="inputs, answers, limits and methods of one")
    one.add_argument("calculation", metavar="ID")
    one.add_argument("--json", action="store_true", help="print JSON")
    one.set_defaults(run=_describe)

    one = commands.add_parser("calculate", help="answer one question")
    one.add_argument("calculation", metavar="ID")
    one.add_argument("values", nargs="*", metavar="name=value", help="such as store_volume='210 l'")
    one.add_argument("--input", metavar="FILE", help="a request or its inputs as JSON; - for stdin")
    one.add_argument("--example", action="store_true", help="start from the calculation's example")
    for member in ("method", "region", "date", "units"):
        one.add_argument(f"--{member}", help=f"the request's {member}")
    one.add_argument("--working", action="store_true", help="show every step and its source")
    one.add_argument("--charts", action="store_true", help="with --json: add the charts")
    one.add_argument("--markdown", action="store_true", help="print Markdown")
    one.add_argument("--json", action="store_true", help="print the whole record as JSON")
    one.set_defaults(run=_calculate)

    one = commands.add_parser("job", help="run a document of linked calculations")
    one.add_argument("file", nargs="?", metavar="FILE", help="the job document; - for stdin")
    one.add_argument("--template", metavar="NAME", help="run a document that a plugin offers")
    one.add_argument("--document", action="store_true", help="print the document, do not run it")
    one.add_argument("--working", action="store_true", help="show every step")
    one.add_argument("--markdown", action="store_true", help="print Markdown")
    one.add_argument("--json", action="store_true", help="print the whole record as JSON")
    one.set_defaults(run=_job)

    one = commands.add_parser("schema", help="the exact JSON Schema of one calculation")
    one.add_argument("calculation", metavar="ID")
    one.set_defaults(run=_schema)
    return parser


def _other(name: str, arguments: Sequence[str]) -> int | None:
    """Run a command that another package gives; none when there is no such command."""
    from importlib.metadata import entry_points  # noqa: PLC0415

    for point in entry_points(group=COMMANDS_GROUP, name=name):
        try:
            command = point.load()
        except ImportError as error:
            message = f"the command {name!r} cannot be loaded: {error}"
            raise UsageError(message) from None
        return int(command(list(arguments)))
    return None


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit status."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    try:
        known = {"list", "describe", "calculate", "job", "schema"}
        if arguments and not arguments[0].startswith("-") and arguments[0] not in known:
            status = _other(arguments[0], arguments[1:])
            if status is not None:
                return status
        parser = _parser()
        options, rest = parser.parse_known_args(arguments)
        if rest:  # argparse takes no name=value after an option
            if options.command != "calculate" or any(
                r.startswith("-") or "=" not in r for r in rest
            ):
                parser.error(f"unrecognized arguments: {' '.join(rest)}")
            options.values += rest
        return int(options.run(options))
    except UsageError as error:
        print(f"tundish: {error}", file=sys.stderr)  # noqa: T201
        return MISUSE
    except BrokenPipeError:  # the reader of a pipe has had enough
        sys.stderr.close()
        return FINE


if __name__ == "__main__":
    raise SystemExit(main())
