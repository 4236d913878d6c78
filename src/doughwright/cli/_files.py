"""Files that verbs write: new ones only."""

from __future__ import annotations

from pathlib import Path

from doughwright.errors import Fault, InputError


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet; raise ``InputError`` where it is, or cannot be written."""
    try:
        with path.open("x", encoding="utf-8", newline="") as out:
            out.write(text)
    except FileExistsError as error:
        fault = Fault("there is such a file already", file=str(path), try_="Choose another name")
        raise InputError(fault) from error
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise InputError(Fault(f"cannot write it ({reason})", file=str(path))) from error
