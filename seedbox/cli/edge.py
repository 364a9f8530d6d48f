"""The outer edge: every failure becomes a sentence on stderr and an exit code."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable

import click

from seedbox.errors import ExitCode, SeedboxError

INTERRUPTED = 130
READER_GONE = 141
_LONGEST = 600  # a sentence may quote what was typed, and that may be a whole book


class ReaderGoneError(Exception):
    """The reader of the pipe closed it. click would answer a bare OSError with exit code 1."""


def run(work: Callable[[], object]) -> int:
    """Do `work` and return the exit code; whatever fails has been said by then."""
    speak_utf8()
    try:
        result = work()
        sys.stdout.flush()
    except (BrokenPipeError, ReaderGoneError):
        return _reader_gone()
    except (click.Abort, KeyboardInterrupt, EOFError):
        return INTERRUPTED
    except (SeedboxError, click.ClickException, OSError) as error:
        return _say(error)
    except Exception as error:
        return _own_fault(error)
    return result if isinstance(result, int) else ExitCode.DONE


def speak_utf8() -> None:
    """Let no name in any script stop a listing, whatever the locale says."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            plain = stream.encoding.lower().replace("_", "-") in {"ascii", "us-ascii", "646"}
            encoding = "utf-8" if plain or "ansi" in stream.encoding.lower() else stream.encoding
            stream.reconfigure(encoding=encoding, errors="replace")


def complain(sentence: str, hint: str = "") -> None:
    """A sentence, and perhaps what to do about it, on stderr."""
    for told in filter(None, (sentence, hint)):
        click.echo(told if len(told) <= _LONGEST else f"{told[:_LONGEST]}…", err=True)


def _say(error: SeedboxError | click.ClickException | OSError) -> int:
    if isinstance(error, SeedboxError):
        complain(error.sentence, error.hint)
        return error.exit_code
    if isinstance(error, OSError):
        complain(os_sentence(error))
        return ExitCode.NOT_DONE
    complain(error.format_message(), _where_to_read(error))
    return ExitCode.USAGE if isinstance(error, click.UsageError) else ExitCode.NOT_DONE


def os_sentence(error: OSError) -> str:
    """What the machine refused, and for which file.

    >>> os_sentence(PermissionError(13, "Permission denied", "/x/labels.pdf"))
    '/x/labels.pdf: permission denied.'
    """
    reason = error.strerror or str(error) or type(error).__name__
    reason = reason[:1].lower() + reason[1:]
    return f"{error.filename}: {reason}." if error.filename else f"The machine refused: {reason}."


def _where_to_read(error: click.ClickException) -> str:
    context = error.ctx if isinstance(error, click.UsageError) else None
    return f"Read more with: {context.command_path} --help" if context else ""


def _own_fault(error: Exception) -> int:
    if os.environ.get("SEEDBOX_TRACEBACK", "") not in {"", "0"}:
        import traceback

        traceback.print_exc()
    complain(
        f"Seedbox stopped on a fault of its own ({type(error).__name__}: {error}).",
        "What was saved before is safe. Please report it to the keepers of Seedbox, with the "
        "command you typed; SEEDBOX_TRACEBACK=1 shows the place in the program.",
    )
    return ExitCode.NOT_DONE


def _reader_gone() -> int:
    """The reader of a pipe closed it: say nothing, and let the final flush fail silently too."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, sys.stdout.fileno())
    except (OSError, ValueError):
        pass
    finally:
        os.close(nowhere)
    return READER_GONE
