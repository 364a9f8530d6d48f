"""`settings`: what steers the answers for this garden."""

from __future__ import annotations

from dataclasses import fields

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table
from seedbox.errors import UsageError
from seedbox.tin.preferences import CHOICES, Settings, parse_setting

_COLUMNS = (Column("setting"), Column("value", least=8), Column("accepts", least=12))


@seedbox_command("settings", context_settings={"ignore_unknown_options": True})
@click.argument("name", required=False)
@click.argument("value", required=False)
@click.option("--reset", is_flag=True, help="Go back to the usual value of NAME.")
@json_option
@click.pass_obj
def command(
    session: Session, *, name: str | None, value: str | None, reset: bool, as_json: bool
) -> None:
    """Show the settings of this tin, or one of them, or set NAME to VALUE.

    The settings are kept in the tin. An empty VALUE ("") clears a setting that may be empty.
    """
    if name is not None:
        name = name.replace("-", "_").casefold()
    if reset:
        _reset(session, name, value, as_json)
    elif name is None:
        _show_all(session, as_json)
    elif value is None:
        _show_one(session, name, as_json)
    else:
        _set(session, name, value, as_json)


def _current(session: Session) -> Settings:
    """The tin's settings; a tin that does not exist yet has the usual ones."""
    if not session.tin_path.exists():
        return Settings()
    with session.tin() as tin:
        return tin.settings()


def _show_all(session: Session, as_json: bool) -> None:
    settings = _current(session)
    if as_json:
        say_json(settings)
        return
    rows = [
        (field.name, _said(getattr(settings, field.name)), CHOICES[field.name].accepts)
        for field in fields(settings)
    ]
    say(*table(_COLUMNS, rows, room()))


def _show_one(session: Session, name: str, as_json: bool) -> None:
    if name not in CHOICES:
        parse_setting(name, "")  # says which settings there are
    value = getattr(_current(session), name)
    if as_json:
        say_json({name: value})
    else:
        say(f"{name} is {_said(value)}. It takes {CHOICES[name].accepts}.")


def _set(session: Session, name: str, value: str, as_json: bool) -> None:
    from seedbox.tin.settings import set_setting

    parse_setting(name, value)
    _refuse_unknown_stock(name, value)
    with session.tin(create=True) as tin:
        set_setting(tin, name, value)
        settings = tin.settings()
    now = getattr(settings, name)
    changed(f"{name} is now {_said(now)}.", as_json=as_json, **{name: now})


def _reset(session: Session, name: str | None, value: str | None, as_json: bool) -> None:
    from seedbox.tin.settings import reset_setting

    if name is None or value is not None:
        raise UsageError("--reset wants the name of one setting, and no value.")
    with session.tin() as tin:
        now = getattr(reset_setting(tin, name), name)
    changed(f"{name} is {_said(now)} again, as usual.", as_json=as_json, **{name: now})


def _refuse_unknown_stock(name: str, value: str) -> None:
    """A sheet or design that does not exist is refused now, not when labels are printed."""
    if name == "label_sheet" and value:
        from seedbox.printing.sheets import sheet

        sheet(value)
    elif name == "label_design" and value:
        from seedbox.printing.designs import design

        design(value)


def _said(value: str | float) -> str:
    if value == "":
        return "not set"
    return value if isinstance(value, str) else f"{value:g}"
