"""A window's unsaved work: its draft in the store, and what it was before the last edits."""

from __future__ import annotations

import hashlib
import re
import secrets
from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock
from typing import TypeVar

from doughwright.store import Bench, Kind, Version

_WINDOW = re.compile(r"[a-z0-9]{6,32}")
_MOST_WINDOWS = 200
_MOST_STEPS = 50

Key = tuple[Kind, str, str]
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Work:
    """What a window shows: its text, the saved version it began from, and the newest saved one.

    ``before`` is the text before the window's last edit, ``None`` where there was none; ``good`` the last
    text of the window that could be read, where it is not this one.
    """

    kind: Kind
    name: str
    window: str
    text: str
    base: Version
    head: Version
    unsaved: bool
    before: str | None = None
    good: str | None = None

    @property
    def digest(self) -> str:
        """What a page says of the text it was made from, so that an old page changes nothing."""
        return digest(self.text)

    @property
    def overtaken(self) -> bool:
        """Whether another window has saved since this one began."""
        return self.head.number != self.base.number


def digest(text: str) -> str:
    """A short name for a text."""
    return hashlib.sha256(text.encode()).hexdigest()[:20]


def new_window() -> str:
    """A name for a window, of letters and digits."""
    return secrets.token_hex(6)


def checked_window(given: str | None) -> str:
    """The window that a page names, or a new one."""
    return given if given and _WINDOW.fullmatch(given) else new_window()


class Windows:
    """The drafts of a bench's windows. The texts before the last edits are kept in memory only."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._trails: OrderedDict[Key, tuple[str, ...]] = OrderedDict()
        self._good: OrderedDict[Key, str] = OrderedDict()
        self._lock = Lock()

    def work(self, kind: Kind, name: str, window: str, base: int | None = None) -> Work:
        """What a window shows: its draft, or the saved text (that of version ``base``, where it says so)."""
        head = self._bench.head(kind, name)
        draft = self._bench.draft(kind, head.name, window)
        key: Key = (kind, head.name, window)
        with self._lock:
            trail, good = self._trails.get(key, ()), self._good.get(key)
        if draft is None:
            begun = self._version(head, base)
            return Work(kind, head.name, window, begun.text, begun, head, False, None, good)
        begun = self._version(head, draft.based_on)
        before = trail[-1] if trail else begun.text
        unsaved = draft.text != begun.text
        return Work(kind, head.name, window, draft.text, begun, head, unsaved, before, good)

    def _version(self, head: Version, number: int | None) -> Version:
        if number is None or number == head.number:
            return head
        return self._bench.version(head.kind, head.name, number)

    def write(self, work: Work, text: str) -> Work:
        """Keep a window's new text as its draft; the text it had goes before it."""
        if text == work.text:
            return work
        self._bench.save_draft(work.kind, work.name, work.window, text, based_on=work.base.number)
        with self._lock:
            trail = (*self._trails.pop(_key(work), ()), work.text)[-_MOST_STEPS:]
            _keep(self._trails, _key(work), trail)
        return self.work(work.kind, work.name, work.window)

    def put_back(self, work: Work) -> Work:
        """Take the window's last edit back."""
        if work.before is None:
            return work
        self._bench.save_draft(work.kind, work.name, work.window, work.before, based_on=work.base.number)
        with self._lock:
            trail = self._trails.pop(_key(work), ())[:-1]
            if trail:
                _keep(self._trails, _key(work), trail)
        after = self.work(work.kind, work.name, work.window)
        if trail or after.unsaved:
            return after
        self.forget(after)
        return self.work(work.kind, work.name, work.window, work.base.number)

    def mark_good(self, work: Work) -> None:
        """Remember that this text of the window could be read."""
        with self._lock:
            self._good.pop(_key(work), None)
            _keep(self._good, _key(work), work.text)

    def forget(self, work: Work) -> None:
        """Drop the window's draft: it is saved, or not wanted."""
        self._bench.drop_draft(work.kind, work.name, work.window)
        with self._lock:
            self._trails.pop(_key(work), None)


def _key(work: Work) -> Key:
    return work.kind, work.name, work.window


def _keep(kept: OrderedDict[Key, T], key: Key, value: T) -> None:
    kept[key] = value
    while len(kept) > _MOST_WINDOWS:
        kept.popitem(last=False)
