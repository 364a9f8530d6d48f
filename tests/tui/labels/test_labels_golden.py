"""The screens of labels as text, compared with files.

Write the files anew with SEEDBOX_GOLDEN=write, and read every difference before it is kept.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

GOLDEN = Path(__file__).parent / "golden"
# Name of a screen, the keys that lead to it from the one before. The packet labels have a design
# without a forecast, so that a better model does not change what these files are about.
WALK = {
    "queue": ["j", "j", "j"],
    "sheet": ["s", "2", "4"],
    "first_label": ["escape", "f", "right", "right", "down"],
    "look": ["escape", "enter"],
}


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_screens_look_as_they_did(open_screen, queued_path: Path, labels_key, size):
    write = os.environ.get("SEEDBOX_GOLDEN") == "write"
    async with open_screen(queued_path, size) as screen:
        await screen.press(labels_key)
        for name, keys in WALK.items():
            for key in keys:
                await screen.press(key)
            seen = "\n".join(screen.lines) + "\n"
            file = GOLDEN / f"{name}_{size[0]}x{size[1]}.txt"
            if write:
                file.write_text(seen, encoding="utf-8")
            assert seen == file.read_text(encoding="utf-8"), name
