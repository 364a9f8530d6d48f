"""`python -m seedbox` and the console script."""

from __future__ import annotations

import gc

# A command is over before rubbish matters, and looking for it costs a listing some milliseconds.
gc.set_threshold(100_000, 20, 20)

from seedbox.cli.main import seedbox  # noqa: E402


def main() -> None:
    """Run one command and leave with its exit code."""
    try:
        seedbox(prog_name="seedbox")
    finally:
        gc.freeze()  # Python looks for rubbish once more when it leaves, in all that was loaded


if __name__ == "__main__":
    main()
