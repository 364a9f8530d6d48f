"""What befalls a label between the printer and the photo, with numpy and Pillow alone.

A label is printed, harmed (mud, fading), bent and shot. The shot has SHOT_DPI pixels to the inch
of the label. Everything is drawn from a seed. It is a simulation: it ranks labels and readers.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, radians, sin
from typing import Any

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

from tests.scanning.printed import PrintedLabel

SHOT_DPI = 300
FINE = 2
"""The shot is drawn so many times finer than its pixels, which then take the mean."""
INK, PAPER, TABLE = 40.0, 225.0, 110.0
MUD_PER_MM = 8
"""Fineness at which mud is drawn."""
_ROOM = 1.15


@dataclass(frozen=True)
class Harm:
    """One kind of harm; measures are drawn evenly from their range for each shot.

    `turn` and `lean` [degrees] turn the label in its plane and tilt the camera; `bend` is half the
    angle of a round pot that the label covers [degrees]; `blur` and `grain` are standard
    deviations [pixels, grey levels]; `contrast` is what is left between ink and paper at the
    strong and at the weak end of the label; `mud` is the share of the symbols that is covered.
    """

    name: str
    turn: tuple[float, float] = (-5, 5)
    lean: tuple[float, float] = (0, 5)
    bend: tuple[float, float] = (0, 0)
    blur: tuple[float, float] = (0.5, 0.8)
    grain: tuple[float, float] = (2, 5)
    strong: tuple[float, float] = (1, 1)
    weak: tuple[float, float] = (1, 1)
    mud: float = 0.0


HARMS = (
    Harm("clean"),
    Harm("blur", blur=(1.2, 2.2)),
    Harm("noise", grain=(20, 35)),
    Harm("rotation", turn=(-180, 180)),
    Harm("perspective", lean=(25, 45), turn=(-15, 15)),
    Harm("low contrast", strong=(0.2, 0.35), weak=(0.2, 0.35)),
    Harm("fading", strong=(0.6, 0.9), weak=(0.15, 0.3)),
    Harm("curve", bend=(30, 55)),
    Harm("mud 5 %", mud=0.05),
    Harm("mud 10 %", mud=0.10),
    Harm("mud 15 %", mud=0.15),
)


def shoot(label: PrintedLabel, harm: Harm, seed: int) -> Any:
    """The label in a greyscale photo of its own."""
    rng = np.random.default_rng(seed)
    face = _faded(_enlarged(label.dots, _times(label)), harm, rng)
    if harm.mud:
        face = _muddy(face, label, harm.mud, rng)
    ppi = label.dpi * _times(label)
    if harm.bend[1]:
        face = _bent(face, radians(rng.uniform(*harm.bend)))
    return _photo(face, ppi, harm, rng)


def _times(label: PrintedLabel) -> int:
    return max(1, round(FINE * SHOT_DPI / label.dpi))


def _enlarged(dots: Any, times: int) -> Any:
    return dots.repeat(times, axis=0).repeat(times, axis=1)


def _faded(ink: Any, harm: Harm, rng: Any) -> Any:
    """Grey levels of the face; contrast falls from one end to the other, either way round."""
    ends = [rng.uniform(*harm.strong), rng.uniform(*harm.weak)]
    if rng.random() < 0.5:
        ends.reverse()
    left = np.linspace(*ends, ink.shape[1])[np.newaxis, :]
    middle = (INK + PAPER) / 2 if harm.strong[1] < 0.5 else PAPER
    paper = middle + (PAPER - middle) * left
    dark = middle - (middle - INK) * left
    return np.where(ink, dark, paper)


def _muddy(face: Any, label: PrintedLabel, share: float, rng: Any) -> Any:
    """Splashes of mud all over the label, until so much of its symbols is covered."""
    scale = MUD_PER_MM * 25.4 / label.dpi
    size = (round(label.dots.shape[1] * scale), round(label.dots.shape[0] * scale))
    splashes, symbols = Image.new("L", size), np.zeros(size[::-1], bool)
    for left, top, right, bottom in (
        np.multiply(each, scale).astype(int) for each in label.symbols
    ):
        symbols[top:bottom, left:right] = True
    pen = ImageDraw.Draw(splashes)
    while np.asarray(splashes)[symbols].mean() < share * 255:
        _splash(pen, size, MUD_PER_MM, rng)
    tone = rng.uniform(50, 130) + rng.normal(0, 8, face.shape)
    lies = splashes.resize(face.shape[::-1], Image.Resampling.BILINEAR)
    return np.where(np.asarray(lies) > 127, tone, face)


def _splash(pen: Any, size: tuple[int, int], mm: float, rng: Any) -> None:
    """An uneven blot of about a millimetre and a half across, some much larger or smaller."""
    x, y = rng.uniform(0, size[0]), rng.uniform(0, size[1])
    radius = np.exp(rng.normal(np.log(0.7), 0.5)) * mm
    for _ in range(4):
        along, down = radius * rng.uniform(0.5, 0.9, 2)
        left, top = x + radius * rng.uniform(-0.4, 0.4), y + radius * rng.uniform(-0.4, 0.4)
        pen.ellipse((left - along, top - down, left + along, top + down), fill=255)


def _bent(face: Any, half: float) -> Any:
    """Round an upright pot, seen from the front and a little from above, lit from the front."""
    high, wide = face.shape
    radius = wide / 2 / half
    across = np.arange(int(2 * radius * sin(half))) - radius * sin(half)
    angle = np.arcsin(across / radius)
    column = np.clip((radius * angle + wide / 2).astype(int), 0, wide - 1)
    sag = (0.25 * radius * (1 - np.cos(angle))).astype(int)
    deep = int(sag.max())
    row = np.arange(high + deep)[:, np.newaxis] - (deep - sag)[np.newaxis, :]
    inside = (row >= 0) & (row < high)
    seen = face[np.clip(row, 0, high - 1), column[np.newaxis, :]]
    return np.where(inside, seen * np.cos(angle)[np.newaxis, :] ** 0.5, TABLE)


def _photo(face: Any, ppi: float, harm: Harm, rng: Any) -> Any:
    turn, lean = (radians(rng.uniform(*each)) for each in (harm.turn, harm.lean))
    scale = FINE * SHOT_DPI / ppi
    size = _room(face.shape, scale, turn)
    shot = Image.fromarray(face.astype(np.uint8)).transform(
        size,
        Image.Transform.PERSPECTIVE,
        _coefficients(face.shape, size, scale, (turn, lean, rng.uniform(0, 2 * np.pi))),
        Image.Resampling.BILINEAR,
        fillcolor=round(TABLE),
    )
    shot = shot.reduce(FINE).filter(ImageFilter.GaussianBlur(rng.uniform(*harm.blur)))
    spread = np.float32(rng.uniform(*harm.grain))
    grain = spread * rng.standard_normal((shot.height, shot.width), np.float32)
    return Image.fromarray(np.clip(np.asarray(shot) + grain, 0, 255).astype(np.uint8))


def _room(shape: tuple[int, int], scale: float, turn: float) -> tuple[int, int]:
    """Width and height of a photo that the turned label nearly fills."""
    (high, wide), (along, across) = shape, (abs(cos(turn)), abs(sin(turn)))
    sides = (wide * along + high * across, wide * across + high * along)
    wide, high = (round(_ROOM * side * scale / FINE) * FINE for side in sides)
    return wide, high


def _coefficients(
    shape: tuple[int, int], size: tuple[int, int], scale: float, angles: tuple[float, float, float]
) -> list[float]:
    """Where each point of the photo lies on the face: a pinhole camera four labels away. `angles`
    turn the label, tilt the camera, and say about which axis it is tilted.
    """
    turn, lean, towards = angles
    far = 4 * hypot(*shape) * scale
    tilt = np.array([[1, 0, 0], [0, cos(lean), -sin(lean)], [0, sin(lean), cos(lean)]])
    pose = _about(towards) @ tilt @ _about(towards - turn).T
    plane = np.column_stack([pose[:, 0] * scale, pose[:, 1] * scale, [0, 0, far]])
    lens = np.array([[far, 0, size[0] / 2], [0, far, size[1] / 2], [0, 0, 1]])
    middle = np.array([[1, 0, -shape[1] / 2], [0, 1, -shape[0] / 2], [0, 0, 1]])
    back = np.linalg.inv(lens @ plane @ middle)
    return list((back / back[2, 2]).ravel()[:8])


def _about(angle: float) -> Any:
    return np.array([[cos(angle), -sin(angle), 0], [sin(angle), cos(angle), 0], [0, 0, 1]])
