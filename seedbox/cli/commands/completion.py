"""`completion`: the lines that make a shell finish commands, codes and crop names."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.output import say

_HOW = {
    "bash": 'Add to ~/.bashrc:  eval "$(seedbox completion bash)"',
    "zsh": 'Add to ~/.zshrc:  eval "$(seedbox completion zsh)"',
    "fish": "Save with:  seedbox completion fish > ~/.config/fish/completions/seedbox.fish",
}


@seedbox_command("completion")
@click.argument("shell", type=click.Choice(sorted(_HOW)), metavar="SHELL")
@click.pass_context
def command(ctx: click.Context, shell: str) -> None:
    """Print the completion script for SHELL: bash, fish or zsh."""
    from click.shell_completion import get_completion_class

    root = ctx.find_root()
    made_by = get_completion_class(shell)
    if made_by is None:  # click knows every shell offered above
        raise click.UsageError(f"No completion is known for {shell}.", ctx)
    say(f"# {_HOW[shell]}", made_by(root.command, {}, "seedbox", "_SEEDBOX_COMPLETE").source())
