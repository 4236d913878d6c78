"""The seed of a document: the same text draws the same kitchens, on every machine."""

from __future__ import annotations

import hashlib


def seed_of(text: str) -> int:
    """A whole number from the text, by SHA-256; line ends and a byte order mark make no difference."""
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n")
    return int.from_bytes(hashlib.sha256(plain.encode()).digest()[:6], "big")
