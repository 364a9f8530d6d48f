"""Colours of the screens. Every state is a word as well: colour only repeats it."""

from __future__ import annotations

import os

from textual.theme import Theme

LIGHT, DARK, PLAIN = "light", "dark", "plain"

_LIGHT = Theme(
    name=LIGHT,
    dark=False,
    primary="#3b6b46",
    secondary="#6b5b3b",
    accent="#8a4b12",
    foreground="#23261f",
    background="#f7f4ea",
    surface="#efebdc",
    panel="#e2dcc6",
    success="#2f6b3a",
    warning="#855700",
    error="#9c2f22",
    variables={
        "quiet": "#6c6a5c",
        "cursor-back": "#d3dfc4",
        "cursor-fore": "#14180f",
        "thick": "#4d6410",
        "footer-key": "#3b6b46",
    },
)

_DARK = Theme(
    name=DARK,
    dark=True,
    primary="#9cc69b",
    secondary="#c9b27c",
    accent="#e0a96d",
    foreground="#e4e2d4",
    background="#161a15",
    surface="#1e241d",
    panel="#2a3228",
    success="#8fce8a",
    warning="#e6bd6a",
    error="#ec8d7d",
    variables={
        "quiet": "#9a9d8c",
        "cursor-back": "#3a4a37",
        "cursor-fore": "#ffffff",
        "thick": "#c3d272",
        "footer-key": "#9cc69b",
    },
)

# The terminal's own colours and nothing else: what NO_COLOR asks for.
_PLAIN = Theme(
    name=PLAIN,
    dark=True,
    ansi=True,
    primary="ansi_default",
    secondary="ansi_default",
    accent="ansi_default",
    foreground="ansi_default",
    background="ansi_default",
    surface="ansi_default",
    panel="ansi_default",
    boost="ansi_default",
    success="ansi_default",
    warning="ansi_default",
    error="ansi_default",
    variables={
        "ansi-background": "ansi_black",
        "ansi-foreground": "ansi_white",
        "block-cursor-foreground": "ansi_black",
        "block-cursor-background": "ansi_white",
        "input-cursor-background": "ansi_default",
        "input-cursor-foreground": "ansi_default",
        "input-cursor-text-style": "reverse",
        "quiet": "ansi_default",
        "cursor-back": "ansi_default",
        "cursor-fore": "ansi_default",
        "thick": "ansi_default",
        "footer-key": "ansi_default",
    },
)

THEMES = {theme.name: theme for theme in (_DARK, _LIGHT, _PLAIN)}


def colour_refused() -> bool:
    """Whether the person asked for no colour (https://no-color.org: set and not empty)."""
    return bool(os.environ.get("NO_COLOR"))


def starting_theme(remembered: str) -> str:
    """The theme to begin with: the one remembered in the tin, or plain under NO_COLOR."""
    if colour_refused():
        return PLAIN
    return remembered if remembered in THEMES else DARK


def theme_after(name: str) -> str:
    """The next of the themes, round and round."""
    names = list(THEMES)
    return names[(names.index(name) + 1) % len(names)] if name in names else DARK
