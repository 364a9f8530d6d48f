"""`labels`: writes them; and how they would look, and how true the printer is."""

from __future__ import annotations

from typing import Any

import click

from seedbox.cli.command import LazyFamily

_BEFORE = ("--tin", "--today")


class _Labels(LazyFamily):
    """Without one of its own words first, it writes: `seedbox labels FILE`."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        at = _first_word(args)
        word = args[at] if at < len(args) else ""
        begun = bool(args) or not ctx.resilient_parsing
        if begun and word not in (*self.list_commands(ctx), "-h", "--help"):
            args = [*args[:at], "write", *args[at:]]
        return super().parse_args(ctx, args)

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The page of the writing command, and then the others."""
        self._writing(ctx).command.format_help(self._writing(ctx), formatter)
        self.format_commands(ctx, formatter)

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[Any]:
        from click.shell_completion import CompletionItem

        found = super().shell_complete(ctx, incomplete)
        if not incomplete.startswith("-"):
            return [*found, CompletionItem(incomplete, type="file")]
        writing = self._writing(ctx)
        return [*found, *writing.command.shell_complete(writing, incomplete)]

    def _writing(self, ctx: click.Context) -> click.Context:
        write = self.get_command(ctx, "write")
        assert write is not None  # it is in the table below
        return click.Context(write, info_name=ctx.info_name, parent=ctx.parent)


def _first_word(args: list[str]) -> int:
    """Where the words begin, behind the global options."""
    at = 0
    while at < len(args) and args[at].partition("=")[0] in _BEFORE:
        at += 1 if "=" in args[at] else 2
    return at


command = _Labels(
    "labels",
    package=__name__,
    modules={
        "write": "write",
        "preview": "preview",
        "calibrate": "calibrate",
        "measured": "measured",
        "queue": "queue",
    },
    help="Labels as a PDF: write them, look at them before, and measure how true the printer is.",
)
