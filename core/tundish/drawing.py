"""Blocks of words drawn: in a terminal (rich, imported at first use) or as Markdown."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.sheet import Block, Entry, Grid, Heading, Paragraph, Verdict
from tundish.words import VERDICT_WORDS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import Console

_STYLES = {
    "dangerous": "bold white on red",
    "not-met": "bold red",
    "advisory": "yellow",
    "met": "green",
    "incomplete": "bold magenta",
}
_VERDICT_WIDTH = 10
_MARKS = {"caution": "! ", "question": "? "}


def in_terminal(blocks: Iterable[Block], console: Console) -> None:
    """Print blocks. Verdicts are words first; colour only helps the eye."""
    for block in blocks:
        if isinstance(block, Heading):
            _heading(block, console)
        elif isinstance(block, Verdict):
            _verdict(block, console)
        elif isinstance(block, Paragraph):
            _hanging(_MARKS.get(block.mark, ""), block.text, "", console)
        elif isinstance(block, Entry):
            _entry(block, console)
        else:
            _grid(block, console)


def _entry(block: Entry, console: Console) -> None:
    from rich.padding import Padding  # noqa: PLC0415
    from rich.text import Text  # noqa: PLC0415

    gap = "  " if block.facts else ""
    console.print(Text.assemble((block.term, "bold"), gap, block.facts))
    if block.text:
        console.print(Padding(Text(block.text), (0, 0, 0, 4)))


def _heading(block: Heading, console: Console) -> None:
    from rich.text import Text  # noqa: PLC0415

    console.print()
    style = {1: "bold underline", 2: "bold"}.get(block.level, "italic")
    console.print(Text(block.text, style=style))


def _hanging(first: str, text: str, style: str, console: Console, width: int = 1) -> None:
    """Print a paragraph whose further lines stand under its own first word."""
    from rich.table import Table  # noqa: PLC0415
    from rich.text import Text  # noqa: PLC0415

    if not first:
        console.print(Text(text), soft_wrap=False)
        return
    table = Table.grid(padding=(0, 1))
    table.add_column(no_wrap=True, min_width=width)
    table.add_column()
    table.add_row(Text(first.strip(), style=style), Text(text))
    console.print(table)


def _verdict(block: Verdict, console: Console) -> None:
    words, style = VERDICT_WORDS[block.verdict], _STYLES.get(block.verdict or "", "")
    _hanging(words, block.words, style, console, _VERDICT_WIDTH)


def _grid(block: Grid, console: Console) -> None:
    from rich import box  # noqa: PLC0415
    from rich.table import Table  # noqa: PLC0415
    from rich.text import Text  # noqa: PLC0415

    named = any(block.head)
    table: Any = Table(
        box=box.SIMPLE_HEAD if named else None,
        show_header=named,
        pad_edge=False,
        title=block.title or None,
        title_justify="left",
        title_style="italic",
    )
    for index, head in enumerate(block.head):
        table.add_column(
            Text(head),
            justify="right" if index in block.numbers else "left",
            overflow="fold",
        )
    for row in block.rows:
        table.add_row(*(Text(cell) for cell in row))
    console.print(table)


def as_markdown(blocks: Iterable[Block]) -> str:
    """Return blocks as Markdown that any program reads the same way."""
    lines: list[str] = []
    for block in blocks:
        if isinstance(block, Heading):
            lines += ["#" * block.level + " " + _plain(block.text), ""]
        elif isinstance(block, Verdict):
            lines += [f"- **{VERDICT_WORDS[block.verdict]}** {_plain(block.words)}", ""]
        elif isinstance(block, Paragraph):
            mark = {"caution": "> ", "question": "- [ ] "}.get(block.mark, "")
            lines += [mark + _plain(block.text), ""]
        elif isinstance(block, Entry):
            facts = f" ({_plain(block.facts)})" if block.facts else ""
            lines += [f"- **{_plain(block.term)}**{facts} {_plain(block.text)}".rstrip(), ""]
        else:
            lines += [*_markdown_grid(block), ""]
    return "\n".join(lines).rstrip() + "\n"


def _plain(text: str) -> str:
    """Keep text from being read as markup."""
    for sign in "\\`*_<>[]|#":
        text = text.replace(sign, "\\" + sign)
    return " ".join(text.split())


def _markdown_grid(block: Grid) -> list[str]:
    lines = [f"*{_plain(block.title)}*", ""] if block.title else []
    lines.append("| " + " | ".join(_plain(head) or " " for head in block.head) + " |")
    rule = ["--:" if index in block.numbers else "---" for index in range(len(block.head))]
    lines.append("| " + " | ".join(rule) + " |")
    lines += ["| " + " | ".join(_plain(cell) or " " for cell in row) + " |" for row in block.rows]
    return lines
