"""Every command and option explains itself, and README mentions every command."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from seedbox.cli.main import EXIT_CODES, seedbox
from seedbox.cli.registry import ENTRIES, sections

README = Path(__file__).parents[2] / "README.md"


def _walk(command: click.Command, path: str) -> Iterator[tuple[str, click.Command]]:
    yield path, command
    if isinstance(command, click.Group):
        context = click.Context(command)
        for name in command.list_commands(context):
            inner = command.get_command(context, name)
            assert inner is not None, f"{path} {name}"
            yield from _walk(inner, f"{path} {name}")


COMMANDS = dict(_walk(seedbox, "seedbox"))


@pytest.mark.parametrize("path", COMMANDS)
def test_every_command_says_what_it_does(path: str) -> None:
    help_text = (COMMANDS[path].help or "").strip()
    assert len(help_text.split()) >= 4, path
    assert help_text.split("\n")[0].endswith((".", ",")) or "." in help_text


@pytest.mark.parametrize("path", COMMANDS)
def test_every_option_says_what_it_is_for(path: str) -> None:
    for parameter in COMMANDS[path].params:
        if isinstance(parameter, click.Option):
            assert (parameter.help or "").strip().endswith("."), f"{path} {parameter.opts}"


@pytest.mark.parametrize("path", COMMANDS)
def test_every_help_page_opens_and_fits(path: str) -> None:
    context = click.Context(COMMANDS[path], info_name=path, max_content_width=100)
    assert max(map(len, COMMANDS[path].get_help(context).splitlines())) <= 100


@pytest.mark.parametrize("path", [path for path in COMMANDS if path.count(" ") == 2])
def test_short_helps_are_whole_sentences_not_cut_ones(path: str) -> None:
    assert not COMMANDS[path].get_short_help_str(60).endswith("..."), path


def test_the_help_shows_every_command_with_its_summary() -> None:
    shown = seedbox.get_help(click.Context(seedbox, info_name="seedbox"))
    for section, entries in sections().items():
        assert section in shown
        for entry in entries:
            assert re.search(rf"^  {entry.name} +{re.escape(entry.summary)}$", shown, re.M)


def test_the_help_of_all_imports_no_command() -> None:
    """What a command does is told by the registry, so that help is as quick as a listing."""
    ask = (
        "import sys; from seedbox.cli.main import seedbox\n"
        "try: seedbox(['--help'], prog_name='seedbox')\n"
        "except SystemExit: print([n for n in sys.modules if 'cli.commands.' in n])"
    )
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_readme_lists_the_exit_codes() -> None:
    """As a table: `| 3 | no such packet, … |`, in the words of `seedbox --help`."""
    readme = README.read_text(encoding="utf-8")
    missing = [
        f"| {int(code)} | {meaning} |"
        for code, meaning in EXIT_CODES.items()
        if not re.search(rf"\| *{int(code)} *\| *{re.escape(meaning)} *\|", readme)
    ]
    assert missing == []


def test_readme_mentions_every_command() -> None:
    readme = README.read_text(encoding="utf-8")
    missing = [name for name in ENTRIES if not re.search(rf"seedbox {name}\b", readme)]
    assert missing == []
