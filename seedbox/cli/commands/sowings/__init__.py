"""`sowings`: trays and rows with what is next; one module a command."""

from __future__ import annotations

import click

from seedbox.cli.command import LazyFamily


class _Sowings(LazyFamily):
    """Without a further word it lists; a code alone shows that sowing."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        word = next((word for word in args if not word.startswith("-")), "")
        asks = {"-h", "--help"} & set(args)
        if not asks and not ctx.resilient_parsing and word not in self.list_commands(ctx):
            if _is_code(word):
                args = ["show", *args]
            elif not word or args[0].startswith("-"):
                args = ["list", *args]
        return super().parse_args(ctx, args)


def _is_code(word: str) -> bool:
    return word[:1] in ("S", "s") and any(char.isdigit() for char in word)


command = _Sowings(
    "sowings",
    package=__name__,
    modules={
        "list": "list_sowings",
        "show": "show",
        "count": "count",
        "move": "move",
        "failed": "failed",
        "end": "end",
        "remove": "remove",
    },
    help=(
        "Sowings in progress and what is next for each; one of them by its code.\n\n"
        "`seedbox sowings` lists them, `seedbox sowings S4K7QMX2` shows one. What a job does not "
        "ask for is written down with the commands below."
    ),
)
