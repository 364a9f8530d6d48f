"""Ways to look at a photo: whole, in overlapping tiles, enlarged, sharpened, softened, turned."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin
from typing import Any

from PIL import Image, ImageChops, ImageFilter

from seedbox.scanning.sightings import Point

TILE = 1000
"""Side of a tile [pixels]: one call of the reader gives at most 255 symbols."""
OVERLAP = 300
"""What tiles share [pixels]: a code up to this size lies whole in one of them."""

# Gives the squares of a small symbol their edges back: about the blur of a phone's lens.
_SHARPER = ImageFilter.UnsharpMask(radius=1.2, percent=200, threshold=0)
# Takes out the grain of a photo in poor light, and leaves squares of three pixels as they are.
_SOFTER = ImageFilter.GaussianBlur(
    0.8
)  # For deep shade: as little contrast as there is, without the grain, stretched four times.
_SMOOTHER, _ABOUT, _STRETCH = ImageFilter.GaussianBlur(1.2), ImageFilter.BoxBlur(40), 4
_FINE_UP_TO, _FINEST = 3, Image.Resampling.LANCZOS
"""Squares below two pixels keep their edges better this way:."""

Box = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Look:
    """One way to look. `scale` 0 is the whole photo as it is, else tiles enlarged so much.

    `evened` takes shade out. `turn` [degrees] turns the photo first; `inverted` looks for light
    symbols on dark, too.
    """

    scale: float
    sharper: bool = False
    softer: bool = False
    evened: bool = False
    turn: float = 0.0
    inverted: bool = False


def tiles(size: tuple[int, int]) -> Iterator[Box]:
    """Boxes (left, top, right, bottom) that cover a picture, row by row, sharing OVERLAP.

    >>> list(tiles((1200, 800)))
    [(0, 0, 1000, 800), (700, 0, 1200, 800)]
    """
    for top in _steps(size[1]):
        for left in _steps(size[0]):
            yield (left, top, min(left + TILE, size[0]), min(top + TILE, size[1]))


def _steps(length: int) -> range:
    return range(0, max(length - OVERLAP, 1), TILE - OVERLAP)


def turned(image: Any, degrees: float) -> Any:
    """The picture turned anticlockwise about its middle, on a larger white ground."""
    if not degrees:
        return image
    return image.rotate(degrees, resample=Image.Resampling.BILINEAR, expand=True, fillcolor=255)


def turned_back(
    point: Point, degrees: float, seen: tuple[int, int], photo: tuple[int, int]
) -> Point:
    """Where a point of the turned picture of size `seen` stands in the photo."""
    if not degrees:
        return point
    angle = radians(degrees)
    x, y = point[0] - seen[0] / 2, point[1] - seen[1] / 2
    back_x, back_y = x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)
    return back_x + photo[0] / 2, back_y + photo[1] / 2


def cut_out(image: Any, box: Box, look: Look) -> Any:
    """One tile, sharpened, softened or evened, and enlarged, as wanted."""
    tile = image.crop(box)
    if look.sharper:
        tile = tile.filter(_SHARPER)
    if look.softer:
        tile = tile.filter(_SOFTER)
    if look.evened:
        tile = _evened(tile.filter(_SMOOTHER))
    if look.scale in (0, 1):
        return tile
    size = (round(tile.width * look.scale), round(tile.height * look.scale))
    return tile.resize(size, _FINEST if look.scale > _FINE_UP_TO else Image.Resampling.BICUBIC)


def _evened(tile: Any) -> Any:
    """Paper and ink as far from the middle grey wherever they lie, in light or in shade."""
    return ImageChops.subtract(tile, tile.filter(_ABOUT), 1 / _STRETCH, 128)
