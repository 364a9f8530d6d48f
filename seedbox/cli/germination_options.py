"""The argument that names a germination test, the same for every command."""

from __future__ import annotations

from seedbox.cli import completing
from seedbox.cli.codes import code_argument

test_argument = code_argument(completing.tests, "test")
