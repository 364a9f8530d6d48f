"""The edge: sentences and exit codes, never a traceback unless asked."""

from __future__ import annotations

from collections.abc import Callable

import click
import pytest

from seedbox import errors
from seedbox.cli.edge import INTERRUPTED, READER_GONE, run
from seedbox.cli.main import EXIT_CODES, seedbox
from seedbox.errors import ExitCode, SeedboxError


def _raiser(error: BaseException) -> Callable[[], None]:
    def work() -> None:
        raise error

    return work


@pytest.mark.parametrize(
    "kind",
    [kind for kind in vars(errors).values() if isinstance(kind, type)
     and issubclass(kind, SeedboxError)],
)  # fmt: skip
def test_each_error_is_its_sentence_hint_and_code(
    kind: type[SeedboxError], capsys: pytest.CaptureFixture[str]
) -> None:
    assert (
        run(_raiser(kind("The tin is locked.", hint="Close the other window."))) == kind.exit_code
    )
    printed = capsys.readouterr()
    assert printed.err == "The tin is locked.\nClose the other window.\n"
    assert printed.out == ""


def test_a_fault_of_our_own_shows_no_traceback(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("SEEDBOX_TRACEBACK", raising=False)
    assert run(_raiser(RuntimeError("odd"))) == ExitCode.NOT_DONE
    said = capsys.readouterr().err
    assert "Traceback" not in said
    assert "odd" in said
    assert "report" in said


def test_the_traceback_comes_when_asked(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SEEDBOX_TRACEBACK", "1")
    run(_raiser(RuntimeError("odd")))
    assert "Traceback" in capsys.readouterr().err


def test_ctrl_c_is_quiet(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(_raiser(KeyboardInterrupt())) == INTERRUPTED
    assert run(_raiser(click.Abort())) == INTERRUPTED
    assert capsys.readouterr() == ("", "")


def test_an_operating_system_fault_names_the_file(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(_raiser(PermissionError(13, "Permission denied", "/x/y.pdf"))) == ExitCode.NOT_DONE
    assert capsys.readouterr().err == "/x/y.pdf: permission denied.\n"


def test_the_help_lists_every_exit_code() -> None:
    text = seedbox.get_help(click.Context(seedbox, info_name="seedbox"))
    assert set(EXIT_CODES) == set(ExitCode)
    for code in ExitCode:
        assert f"  {int(code)}  {EXIT_CODES[code]}" in text
    assert str(INTERRUPTED) in text
    assert str(READER_GONE) in text
