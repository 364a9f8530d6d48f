"""Photos composed from real pages of labels: laid out, tilted, seen askew, shaded, blurred, grainy.

Nothing was printed on paper or shot with a phone: what is read here ranks ways of reading and
shows the reach of a resolution; it is no rate from the field.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import atan2, cos, radians, sin
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pypdfium2
from PIL import Image, ImageChops, ImageDraw, ImageFilter

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.labels import print_labels
from seedbox.printing.pages import slots
from seedbox.printing.sheets import sheet
from seedbox.tin.codes import new_code

DPI = 300
SHEET = "a4-65-38x21-gap"


@dataclass(frozen=True)
class Shot:
    """How a photo is taken: tilts of single labels [degrees either way], how far the corners lean
    in [share of the sides], blur [pixels, standard deviation], grain [grey levels, the same], how
    dark the shade is [0 to 1], and the share of its cell that a label fills.
    """

    tilt: float = 6.0
    askew: float = 0.03
    blur: float = 0.8
    grain: float = 8.0
    shade: float = 0.4
    fill: float = 0.85
    seed: int = 1


def codes(count: int, kind: str = "P", seed: int = 1) -> list[str]:
    """So many codes, always the same ones."""
    rng, taken = random.Random(seed), set[str]()
    while len(taken) < count:
        taken.add(new_code(kind, taken, rng))
    return sorted(taken, key=lambda code: random.Random(code).random())


def labels(
    wanted: Sequence[str],
    *,
    named: str = "packet",
    on: str = SHEET,
    symbol: str = "qr",
    least_module_mm: float | None = None,
) -> list[Any]:
    """Greyscale pictures of printed labels, cut from the pages of a real label file at 300 dpi."""
    plan = design(named)
    code = replace(plan.code, symbol=symbol)
    if least_module_mm is not None:
        code = replace(code, module_mm=least_module_mm)
    items = [
        LabelContent(each, {"crop": "Leek", "variety": f"Long Hill {number}", "left": "40 seeds"})
        for number, each in enumerate(wanted)
    ]
    job = LabelJob(replace(plan, code=code), sheet(on), items)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "labels.pdf"
        print_labels(job, path, proof=False)
        return _cut(path, job)


def _cut(path: Path, job: LabelJob) -> list[Any]:
    scale, made, document = DPI / 72, [], pypdfium2.PdfDocument(path)
    try:
        pages = [
            page.render(scale=scale, grayscale=True).to_pil()
            for page in (document[number] for number in range(len(document)))
        ]
        for slot in slots(job):
            page, box = pages[slot.page], slot.box
            upper, lower = page.height - box.top * scale, page.height - box.y * scale
            edges = (box.x * scale, upper, box.right * scale, lower)
            made.append(page.crop(tuple(map(round, edges))))
    finally:
        document.close()
    return made


def compose(
    pictures: Sequence[Any], columns: int, size: tuple[int, int], shot: Shot = Shot()
) -> Any:
    """A photo of labels in rows of `columns`, in the given order."""
    rng, rows = random.Random(shot.seed), -(-len(pictures) // columns)
    cell = (size[0] / columns, size[1] / rows)
    room = _scale(pictures[0], cell, shot)
    table = _wood(size)
    for number, picture in enumerate(pictures):
        row, column = divmod(number, columns)
        middle = ((column + 0.5) * cell[0], (row + 0.5) * cell[1])
        _lay(table, picture, middle, room, rng.uniform(-shot.tilt, shot.tilt))
    return _shot(table, rng, shot)


def module_pixels(pictures: Sequence[Any], columns: int, size: tuple[int, int], shot: Shot,
                  module_mm: float) -> float:  # fmt: skip
    """Pixels of the photo for one square of a symbol, before it is seen askew."""
    rows = -(-len(pictures) // columns)
    fit = _scale(pictures[0], (size[0] / columns, size[1] / rows), shot)
    return module_mm / 25.4 * DPI * fit


def _scale(picture: Any, cell: tuple[float, float], shot: Shot) -> float:
    """So large that no label reaches into its neighbour's cell, however it is tilted."""
    lean = radians(min(shot.tilt, 90))
    wide = picture.width * cos(min(lean, atan2(picture.height, picture.width)))
    wide += picture.height * sin(min(lean, atan2(picture.height, picture.width)))
    high = picture.height * cos(min(lean, atan2(picture.width, picture.height)))
    high += picture.width * sin(min(lean, atan2(picture.width, picture.height)))
    return min(cell[0] / wide, cell[1] / high) * shot.fill


def _wood(size: tuple[int, int]) -> Any:
    return Image.effect_noise(size, 30).point(lambda value: min(255, round(value * 0.5 + 60)))


def _lay(table: Any, picture: Any, middle: tuple[float, float], scale: float, tilt: float) -> None:
    size = (round(picture.width * scale), round(picture.height * scale))
    label = picture.resize(size, Image.Resampling.LANCZOS).convert("LA")
    label = label.rotate(tilt, expand=True, resample=Image.Resampling.BICUBIC)
    corner = (round(middle[0] - label.width / 2), round(middle[1] - label.height / 2))
    table.paste(label.getchannel(0), corner, label.getchannel(1))


def _shot(table: Any, rng: random.Random, shot: Shot) -> Any:
    width, height = table.size
    lean = [rng.uniform(0, shot.askew) for _ in range(8)]
    corners = (
        *(-width * lean[0], -height * lean[1]),
        *(-width * lean[2], height * (1 + lean[3])),
        *(width * (1 + lean[4]), height * (1 + lean[5])),
        *(width * (1 + lean[6]), -height * lean[7]),
    )
    seen = table.transform(
        table.size, Image.Transform.QUAD, corners, Image.Resampling.BICUBIC, fillcolor=90
    )
    seen = ImageChops.multiply(seen, _shade(table.size, shot.shade))
    seen = seen.filter(ImageFilter.GaussianBlur(shot.blur))
    return ImageChops.add(seen, Image.effect_noise(table.size, shot.grain), 1, -128)


def _shade(size: tuple[int, int], depth: float) -> Any:
    """Darker towards the foot, and a hand's shadow on the right."""
    width, height = size
    light = Image.linear_gradient("L").resize(size).transpose(Image.Transpose.FLIP_TOP_BOTTOM)
    light = light.point(lambda value: round(255 - depth * (255 - value)))
    hand = Image.new("L", size, 255)
    ImageDraw.Draw(hand).ellipse(
        (width * 0.5, height * 0.3, width * 1.2, height * 1.1), fill=round(255 * (1 - depth))
    )
    return ImageChops.multiply(light, hand.filter(ImageFilter.GaussianBlur(width / 20)))
