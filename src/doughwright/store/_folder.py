"""Reading and writing the files of an exported folder, to the byte."""

from __future__ import annotations

import os
from pathlib import Path

from doughwright.errors import Fault, InputError
from doughwright.store.names import LARGEST_TEXT, too_large

# A list of versions has no text in it: this is room for half a million of them.
LARGEST_MANIFEST = 200_000_000


def read_text(path: Path, shown: str, *, largest: int = LARGEST_TEXT) -> str:
    """The text in a file with nothing changed; ``InputError`` where it is too large or not UTF-8."""
    size = path.stat().st_size
    if size > largest:
        raise too_large(shown, size)
    content = path.read_bytes()
    try:
        return content.decode()
    except UnicodeDecodeError as error:
        raise InputError(
            Fault(
                "the file is not text as Doughwright keeps it",
                file=shown,
                line=content.count(b"\n", 0, error.start) + 1,
                wanted="UTF-8",
                found=f"the byte 0x{content[error.start]:02X} at byte {error.start + 1}",
                try_="Save it as UTF-8",
            )
        ) from error


def write_text(path: Path, text: str) -> None:
    """Write a whole file or none of it: the text is on the disk before the name points to it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    with part.open("wb") as file:
        file.write(text.encode())
        file.flush()
        os.fsync(file.fileno())
    part.replace(path)
