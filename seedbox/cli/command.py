"""How a subcommand is made: the global options may follow its name, `--json` is one line."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any, TypeVar

import click

from seedbox.cli.params import DAY
from seedbox.cli.session import Session

F = TypeVar("F", bound=Callable[..., Any])


def _remember(ctx: click.Context, param: click.Parameter, value: Any) -> Any:
    """A global option given after the command wins over one given before it."""
    if value is not None:
        session: Session = ctx.ensure_object(Session)
        setattr(session, {"tin": "chosen_tin", "today": "chosen_day"}[str(param.name)], value)
    return value


def _global_options() -> list[click.Option]:
    return [
        click.Option(
            ["--tin"],
            type=click.Path(dir_okay=False, path_type=Path),
            help="The tin file to use (global option).",
            hidden=True,
            expose_value=False,
            callback=_remember,
        ),
        click.Option(
            ["--today"],
            type=DAY,
            help="Answer as of this day (global option).",
            hidden=True,
            expose_value=False,
            callback=_remember,
        ),
    ]


def refuse_unknown(ctx: click.Context, name: str, known: Iterable[str]) -> None:
    """A command that does not exist, with the nearest ones that do."""
    names = list(known)
    if name in names or name.startswith("-") or ctx.resilient_parsing:
        return
    from difflib import get_close_matches

    near = get_close_matches(name, names, n=2, cutoff=0.5)
    guess = f" Did you mean {' or '.join(near)}?" if near else ""
    raise click.UsageError(f"There is no command “{name}”.{guess}", ctx)


class SeedboxCommand(click.Command):
    """A command after which `--tin` and `--today` may stand as well."""

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        self.params.extend(_global_options())


class SeedboxGroup(click.Group):
    """A command with commands of its own, such as `store add`."""

    command_class = SeedboxCommand

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        self.params.extend(_global_options())

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        refuse_unknown(ctx, args[0], self.list_commands(ctx))
        return super().resolve_command(ctx, args)


class LazyFamily(SeedboxGroup):
    """A family of commands, each in a module of its own that is imported only when it is used."""

    def __init__(self, *args: Any, package: str, modules: Mapping[str, str], **more: Any) -> None:
        super().__init__(*args, **more)
        self._package, self._modules = package, modules

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self._modules)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self._modules:
            return None
        module = import_module(f"{self._package}.{self._modules[cmd_name]}")
        found: click.Command = module.command
        return found


def command(name: str, **settings: Any) -> Callable[[Callable[..., Any]], click.Command]:
    """Make a function one of Seedbox's commands."""
    return click.command(name, cls=SeedboxCommand, **settings)


def group(name: str, **settings: Any) -> Callable[[Callable[..., Any]], SeedboxGroup]:
    """Make a function the head of a family of commands."""
    return click.group(name, cls=SeedboxGroup, **settings)


def json_option(function: F) -> F:
    """The switch from plain lines to JSON. The command receives it as `as_json`."""
    decorate = click.option(
        "--json", "as_json", is_flag=True, help="Print JSON instead of plain lines."
    )
    return decorate(function)
