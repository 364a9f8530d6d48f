"""`python -m seedbox` and the console script."""

from __future__ import annotations

from seedbox.cli.main import seedbox


def main() -> None:
    """Run one command and leave with its exit code."""
    seedbox(prog_name="seedbox")


if __name__ == "__main__":
    main()
