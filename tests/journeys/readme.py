"""The tour of README as commands with the output printed under each; `--write` prints it anew."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

README = Path(__file__).parents[2] / "README.md"
_BLOCK = re.compile(r"```console\n(.*?)```", re.DOTALL)
_REST = "..."


@dataclass(frozen=True)
class Step:
    """One command of the tour and what README says it prints; a last line `...` leaves the rest."""

    command: str
    printed: tuple[str, ...]


def steps(text: str) -> list[Step]:
    """All commands of all console blocks, in order."""
    found = []
    for block in _BLOCK.findall(text):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, *printed = part.rstrip("\n").split("\n")
            found.append(Step(command, tuple(printed)))
    return found


class Walk:
    """Runs the tour's commands one after the other in a folder of their own."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        kept = {name: value for name, value in os.environ.items() if "SEEDBOX" not in name}
        self._environment = {**kept, "COLUMNS": "100", "PYTHONIOENCODING": "utf-8"}

    def run(self, command: str) -> list[str]:
        """The lines that a command prints; an `export` is kept for the commands after it."""
        words = shlex.split(command)
        if words[0] == "export":
            self._environment.update(word.split("=", 1) for word in words[1:])
            return []
        assert words[0] == "seedbox", command
        done = subprocess.run(
            [sys.executable, "-m", "seedbox", *words[1:]],
            cwd=self._folder,
            env=self._environment,
            capture_output=True,
            text=True,
            encoding="utf-8",
            check=False,
        )
        assert done.returncode == 0, f"{command}: {done.stderr}"
        return done.stdout.rstrip("\n").split("\n")


def rewritten(text: str) -> str:
    """README with the output of every command as it is now; cuts with `...` stay where they are."""
    with tempfile.TemporaryDirectory() as folder:
        walk = Walk(Path(folder))

        def block(match: re.Match[str]) -> str:
            lines = []
            for step in steps(match[0]):
                printed = walk.run(step.command)
                if step.printed and step.printed[-1] == _REST:
                    printed = [*printed[: len(step.printed) - 1], _REST]
                lines += [f"$ {step.command}", *printed]
            return "```console\n" + "\n".join(lines) + "\n```"

        return _BLOCK.sub(block, text)


if __name__ == "__main__" and "--write" in sys.argv:
    README.write_text(rewritten(README.read_text(encoding="utf-8")), encoding="utf-8")
