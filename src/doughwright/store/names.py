"""Names of documents, and what a text must be to be kept.

A name is also the name of a file on whatever disk the bench is exported to, so it is held to what every
file system takes: ``leek-and-rye-flat-pie.toml``.
"""

from __future__ import annotations

import re
import unicodedata

from doughwright.errors import Fault, InputError

SUFFIX = ".toml"
_LONGEST_NAME = 100
_LONGEST_NAME_BYTES = 200
LARGEST_TEXT = 1_000_000
LONGEST_WHO = 100
LONGEST_NOTE = 1_000

_ALLOWED = re.compile(r"\w(?:[\w .+-]*\w)?\.toml", re.IGNORECASE)
# Windows keeps these for devices, whatever the suffix.
_DEVICES = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?", re.IGNORECASE)
_TRY = 'Write for example "leek-and-rye-flat-pie.toml"'


def checked_name(name: str) -> str:
    """The name as it is kept (accents composed); ``InputError`` where no file could be called so."""
    composed = unicodedata.normalize("NFC", name)
    why = _why_not(composed)
    if why:
        raise InputError(
            Fault(f"the name {_shown(name)} {why}", wanted="a file name", found=_shown(name), try_=_TRY)
        )
    return composed


def _why_not(name: str) -> str | None:
    if not name.strip():
        return "is empty"
    if len(name) > _LONGEST_NAME or len(name.encode("utf-8", "replace")) > _LONGEST_NAME_BYTES:
        return f"is too long (at most {_LONGEST_NAME} characters)"
    if any(unicodedata.category(letter) in {"Cc", "Cf", "Cs"} for letter in name):
        return "holds characters that cannot be seen"
    if "/" in name or "\\" in name or name.startswith("."):
        return "is a path, or hidden"
    if not name.casefold().endswith(SUFFIX):
        return f"does not end in {SUFFIX}"
    if not _ALLOWED.fullmatch(name):
        return "holds more than letters, digits, spaces and . _ + - between letters or digits"
    return "is kept by some systems for a device" if _DEVICES.fullmatch(name) else None


def key_of(name: str) -> str:
    """What two names share that some file system would take for the same: capitals do not count."""
    sound = name.encode("utf-8", "replace").decode()
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", sound).casefold())


def name_from_title(title: str) -> str:
    """A name for a document with this title: ``Leek & rye flat pie`` gives ``leek-rye-flat-pie.toml``."""
    plain = unicodedata.normalize("NFKD", title.casefold())
    letters = "".join(letter for letter in plain if not unicodedata.combining(letter))
    words = unicodedata.normalize("NFC", "-".join(re.findall(r"[^\W_]+", letters)))
    while len(words.encode()) > _LONGEST_NAME_BYTES // 2 or len(words) > _LONGEST_NAME - len(SUFFIX):
        words = words[:-1].rstrip("-")
    if not words:
        words = "untitled"
    return checked_name((f"{words}-1" if _DEVICES.fullmatch(words) else words) + SUFFIX)


def checked_text(text: str, name: str) -> str:
    """The text itself; ``InputError`` where it is too large or could not be written to a file as UTF-8."""
    try:
        size = len(text.encode())
    except UnicodeEncodeError as error:
        raise InputError(
            Fault(
                f"the text at character {error.start + 1} is half of a pair and cannot be kept",
                file=name,
                wanted="text that can be written as UTF-8",
                found=f"U+{ord(text[error.start]):04X}",
                try_="Take the character out",
            )
        ) from error
    if size > LARGEST_TEXT:
        raise too_large(name, size)
    return text


def too_large(name: str, size: int) -> InputError:
    """The error for a text of ``size`` bytes."""
    return InputError(
        Fault(
            "the text is too large to keep",
            file=name,
            wanted=f"at most {LARGEST_TEXT:,} bytes",
            found=f"{size:,} bytes",
            try_="Split it into several documents",
        )
    )


def checked_line(what: str, line: str, longest: int) -> str:
    """A short remark (who, a note) as it is kept; ``InputError`` where it is too long or holds controls."""
    odd = [letter for letter in line if unicodedata.category(letter) in {"Cc", "Cs"} and letter not in "\n\t"]
    if odd or len(line) > longest:
        raise InputError(
            Fault(
                f"{what} cannot be kept",
                wanted=f"at most {longest:,} characters, none of them a control character",
                found=f"{len(line):,} characters" if not odd else f"U+{ord(odd[0]):04X}",
                try_="Write it shorter and plainer",
            )
        )
    return line


def _shown(name: str) -> str:
    short = name if len(name) <= 40 else name[:40] + "..."
    return (
        '"' + short.encode("unicode_escape").decode("ascii") + '"'
        if not short.isprintable()
        else f'"{short}"'
    )
