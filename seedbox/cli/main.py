"""The command `seedbox`: its global options, and its subcommands loaded only when asked for."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from importlib import import_module
from pathlib import Path
from typing import Any, NoReturn

import click

from seedbox import __version__
from seedbox.cli.command import refuse_unknown
from seedbox.cli.edge import INTERRUPTED, READER_GONE, ReaderGoneError, complain, run
from seedbox.cli.params import DAY
from seedbox.cli.registry import ENTRIES, sections
from seedbox.cli.session import Session
from seedbox.errors import ExitCode

EXIT_CODES = {
    ExitCode.DONE: "done",
    ExitCode.NOT_DONE: "not done, for the reason given",
    ExitCode.USAGE: "the command or an option makes no sense as it stands",
    ExitCode.NOT_FOUND: "no such packet, crop, store, place or design; or a name with two meanings",
    ExitCode.BAD_DATA: "a file or a figure that cannot be used",
    ExitCode.TIN: "the tin file is missing, locked, damaged or newer than this program",
    ExitCode.UNREADABLE_CODE: "a printed code could not be read back",
}

_EPILOG = (
    "\b\nExit codes:\n"
    + "\n".join(f"  {int(code)}  {meaning}" for code, meaning in EXIT_CODES.items())
    + f"\n  {INTERRUPTED} after Ctrl+C, {READER_GONE} when the reader of a pipe has gone"
)


class LazyGroup(click.Group):
    """Knows its commands by name and imports one only when it is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(ENTRIES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        entry = ENTRIES.get(cmd_name)
        if entry is None:
            return None
        module = import_module(f"seedbox.cli.commands.{entry.module}")
        command: click.Command = module.command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        refuse_unknown(ctx, args[0], ENTRIES)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        for section, entries in sections().items():
            with formatter.section(section):
                formatter.write_dl([(entry.name, entry.summary) for entry in entries])

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except BrokenPipeError as error:
            raise ReaderGoneError from error

    def main(self, args: Sequence[str] | None = None, *rest: Any, **extra: Any) -> NoReturn:
        extra["standalone_mode"] = False
        sys.exit(run(lambda: super(LazyGroup, self).main(args, *rest, **extra)))


@click.group(
    cls=LazyGroup,
    invoke_without_command=True,
    epilog=_EPILOG,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.option(
    "--tin",
    type=click.Path(dir_okay=False, path_type=Path),
    envvar="SEEDBOX_TIN",
    show_envvar=True,
    help="The tin file to use, instead of the one in your user data folder.",
)
@click.option(
    "--today",
    type=DAY,
    envvar="SEEDBOX_TODAY",
    show_envvar=True,
    help="Answer as of this day, for example 2027-03-01.",
)
@click.option(
    "--mouse/--no-mouse", default=True, help="On the screens: use the mouse, or leave it alone."
)
@click.version_option(__version__, message="seedbox %(version)s")
@click.pass_context
def seedbox(ctx: click.Context, tin: Path | None, today: date | None, mouse: bool) -> None:
    """What is in your tin, how much of it still lives, what to sow now, and labels that scan.

    Without a command the screens open. Each screen's work can be done by a command too.
    The global options may stand before or after the command.
    """
    ctx.obj = Session(tin, today)
    if ctx.invoked_subcommand is None:
        _open_screens(ctx, mouse)


def _open_screens(ctx: click.Context, mouse: bool) -> None:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        complain("The screens need a terminal, and this is none. The commands need none:\n")
        click.echo(ctx.get_help(), err=True)
        ctx.exit(ExitCode.USAGE)
    from seedbox.tui import run as run_screens

    session: Session = ctx.obj
    run_screens(session.tin_path, session.today, mouse=mouse)
