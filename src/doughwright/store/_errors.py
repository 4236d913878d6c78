"""What can go wrong with a bench.

InputError
├── BenchError      the bench, or a folder it is exported to, cannot be used as asked
└── ConflictError   somebody else has changed the document meanwhile
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from doughwright.errors import Fault, InputError

if TYPE_CHECKING:
    from doughwright.store._records import Version


class BenchError(InputError):
    """The bench, or a folder it is exported to, cannot be used as asked."""


class ConflictError(InputError):
    """The document has changed since the writer read it; nothing was written.

    ``text`` is what the writer wanted to save, ``base`` the version they started from (``None`` where they
    thought the document new) and ``head`` the version that is there now.
    """

    def __init__(self, fault: Fault, *, text: str, base: Version | None, head: Version) -> None:
        super().__init__(fault)
        self.text = text
        self.base = base
        self.head = head
