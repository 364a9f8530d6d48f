"""A photo from a file: greyscale, upright, and refused with a sentence when it is none."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PIL import Image, ImageOps, UnidentifiedImageError

from seedbox.errors import BadDataError, NotFoundError

READABLE = "JPEG, PNG, WebP or HEIC"
MOST_PIXELS = 120_000_000
"""Larger pictures would fill the memory of a small computer. A larger JPEG is read at a half, a
quarter or an eighth of its size, which costs no more."""
LEAST_SIDE = 42
"""Two pixels for each of the 21 squares of the smallest symbol; nothing smaller was ever read."""

_FORMATS = ("JPEG", "PNG", "WEBP")
_HEIC_BRANDS = frozenset({b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1"})
_TAKE_JPEG = "Set the phone's camera to save JPEG, or save the photo again as JPEG or PNG."


def read_photo(path: Path) -> Any:
    """The photo as an upright greyscale Pillow picture, 0 black to 255 white.

    Raises NotFoundError (no such file) and BadDataError (no photo, damaged, too large, too small).
    """
    _refuse_no_file(path)
    image = _opened(path)
    try:
        _refuse_size(image, path)
        _shrink_while_reading(image)
        return _grey(_upright(image))
    except BadDataError:
        raise
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError) as error:
        raise _damaged(path) from error
    finally:
        image.close()


def _refuse_no_file(path: Path) -> None:
    if path.is_dir():
        raise BadDataError(f"{path} is a folder: name the photos in it, such as {path}/*.jpg.")
    if not path.exists():
        raise NotFoundError(f"There is no file {path}.")
    if not path.is_file():
        raise BadDataError(f"{path} is no file that a photo can be read from.")


def _opened(path: Path) -> Any:
    """The picture with only its head read."""
    start = _start(path)
    if not start:
        raise BadDataError(f"{path} is empty.")
    formats = [*_FORMATS, _heif(path)] if _is_heic(start) else list(_FORMATS)
    # The library's own limit is lower than what phones take, and one for the whole program.
    limit, Image.MAX_IMAGE_PIXELS = Image.MAX_IMAGE_PIXELS, None
    try:
        return Image.open(path, formats=formats)
    except UnidentifiedImageError as error:
        raise _no_photo(path, start) from error
    except (OSError, SyntaxError, ValueError, EOFError) as error:
        raise _damaged(path) from error
    finally:
        Image.MAX_IMAGE_PIXELS = limit


def _start(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(16)
    except OSError as error:
        raise BadDataError(f"{path} cannot be read: {error.strerror}.") from error


def _is_heic(start: bytes) -> bool:
    return start[4:8] == b"ftyp" and start[8:12] in _HEIC_BRANDS


def _heif(path: Path) -> str:
    """Name of the format for HEIC, once the library that reads it is there."""
    try:
        from pillow_heif import register_heif_opener
    except ImportError as error:
        raise BadDataError(
            f"{path} is a HEIC photo, and the library that reads those is not installed.",
            hint=f"Add it with: pip install 'seedbox[heic]'. Or else: {_TAKE_JPEG}",
        ) from error
    register_heif_opener()
    return "HEIF"


def _no_photo(path: Path, start: bytes) -> BadDataError:
    if start.startswith(b"%PDF-"):
        return BadDataError(f"{path} is a PDF, not a photo.", hint="Take a photo of the page.")
    return BadDataError(f"{path} is no photo that can be read: {READABLE} is wanted.")


def _damaged(path: Path) -> BadDataError:
    return BadDataError(
        f"{path} is damaged or cut short, so it cannot be read.",
        hint="Copy it from the phone again.",
    )


def _refuse_size(image: Any, path: Path) -> None:
    width, height = image.size
    if min(width, height) < LEAST_SIDE:
        raise BadDataError(
            f"{path} is only {width} by {height} pixels: too small for a code to be seen in it."
        )
    most = MOST_PIXELS * 64 if image.format in ("JPEG", "MPO") else MOST_PIXELS
    if width * height > most:
        raise BadDataError(
            f"{path} has {width} by {height} pixels, more than can be read"
            f" ({MOST_PIXELS // 1_000_000} million).",
            hint="Save it at half the size.",
        )


def _shrink_while_reading(image: Any) -> None:
    """Tells a JPEG to give greyscale, and no more pixels than wanted."""
    size, divisor = image.size, 1
    while size[0] * size[1] / divisor**2 > MOST_PIXELS:
        divisor *= 2
    image.draft("L", (size[0] // divisor, size[1] // divisor))


def _upright(image: Any) -> Any:
    """Turned as the camera was held. A damaged note about that is no reason to refuse the photo."""
    image.load()
    try:
        return ImageOps.exif_transpose(image)
    except Exception:  # that note is whatever some camera's program wrote
        return image


def _grey(image: Any) -> Any:
    """8 bits of grey; what can be seen through is taken for white paper."""
    if image.mode.startswith("I"):
        return image.convert("I").point(lambda value: value / 257).convert("L")
    if image.mode in ("LA", "PA", "RGBA", "La", "RGBa") or "transparency" in image.info:
        seen = image.convert("RGBA")
        paper = Image.new("RGBA", seen.size, "white")
        return Image.alpha_composite(paper, seen).convert("L")
    return image.convert("L")
