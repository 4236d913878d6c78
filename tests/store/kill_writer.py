"""Writes to a bench and is killed, over and over; prints what was lost. Run by ``test_kill.py``.

One process loads everything once and forks a writer for each round, so that a round costs milliseconds. The
writer sends a line down a pipe after each change that has returned; the parent kills it at a random moment,
then opens the bench and looks for every change it was told of.
"""

from __future__ import annotations

import json
import os
import random
import select
import signal
import sqlite3
import sys
import time
from contextlib import closing
from pathlib import Path

import alembic.command
import alembic.config  # noqa: F401  (loaded before the forks)

from doughwright.store import open_bench

NAMES = ("pie.toml", "loaf.toml", "bun.toml")
# Rounds of one bench; then a new one begins, so that kills also fall into its making.
ROUNDS_A_BENCH = 8


def text_of(name: str, number: int) -> str:
    """The text saved as this version: many sizes, the largest over many pages of the file."""
    return f"{name} {number}\n" + "x" * (number * 7919 % 40_000)


def write_until_killed(folder: Path, pipe: int) -> None:
    """Save, draft, undo, remove and import without end, telling each change when it has returned."""
    with open_bench(folder, who="writer") as bench:
        os.write(pipe, b"open\n")
        while True:
            for name in NAMES:
                known = name in bench.names("recipe") or name in bench.names("recipe", removed=True)
                last = bench.versions("recipe", name)[-1] if known else None
                number = last.number + 1 if last else 1
                expected = None if last is None or last.removed else last.number
                if expected is not None and number % 11 == 0:
                    bench.remove("recipe", name, expected=expected)
                    told = f"{name} {number} removed"
                else:
                    bench.save("recipe", name, text_of(name, number), expected=expected)
                    told = f"{name} {number} saved"
                os.write(pipe, f"{told}\n".encode())
                bench.save_draft("recipe", name, "window", text_of(name, number), based_on=number)
                os.write(pipe, f"{name} {number} drafted\n".encode())


def one_round(folder: Path, lines: int, wait: float) -> list[str]:
    """Start a writer, kill it ``wait`` seconds after it has told so many lines, and give what it told."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        try:
            write_until_killed(folder, write)
        finally:
            os._exit(70)
    os.close(write)
    told = b""
    # Counting lines first makes a busy machine only slower, not blind: the kills still fall among writes.
    while told.count(b"\n") < lines and (more := os.read(read, 65536)):
        told += more
    until = time.monotonic() + wait
    while (left := until - time.monotonic()) > 0:
        if select.select([read], [], [], left)[0]:
            told += os.read(read, 65536)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    if os.waitstatus_to_exitcode(status) != -signal.SIGKILL:
        raise SystemExit(f"the writer ended by itself: {status}")
    while more := os.read(read, 65536):
        told += more
    os.close(read)
    return told.decode().splitlines()


def faults_of(folder: Path, told: list[str]) -> list[str]:
    """What is wrong with the bench, given everything that was told of it so far."""
    faults: list[str] = []
    with open_bench(folder) as bench:
        with closing(sqlite3.connect(bench.path)) as raw:
            if raw.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
                faults.append("the file is damaged")
        histories = {
            name: bench.versions("recipe", name)
            for removed in (False, True)
            for name in bench.names("recipe", removed=removed)
        }
        drafts = {name: bench.draft("recipe", name, "window") for name in NAMES}
    for name, history in histories.items():
        for number, version in enumerate(history, 1):
            wanted = "" if version.removed else text_of(name, number)
            if (version.number, version.text) != (number, wanted):
                faults.append(f"{name} {number} is not what was saved")
    for line in told:
        name, *rest = line.split()
        if not rest:
            continue
        number, what = int(rest[0]), rest[1]
        if number > len(histories.get(name, ())):
            faults.append(f"lost: {line}")
        elif what != "drafted" and histories[name][number - 1].removed != (what == "removed"):
            faults.append(f"changed: {line}")
        draft = drafts[name]
        if what == "drafted" and (draft is None or draft.based_on is None or draft.based_on < number):
            faults.append(f"lost: {line}")
    return faults


def main(place: Path, kills: int, seed: int) -> None:
    """Print, as JSON, how many rounds there were, how many changes were told, and every fault."""
    chance = random.Random(seed)
    told: list[str] = []
    result = {"kills": 0, "changes": 0, "killed_before_open": 0, "faults": []}
    for kill in range(kills):
        folder = place / f"bench-{kill // ROUNDS_A_BENCH}"
        if kill % ROUNDS_A_BENCH == 0:
            told = []
        # The first round of a bench is killed anywhere in its making, the others after one line or more.
        new = kill % ROUNDS_A_BENCH == 0
        lines = one_round(
            folder, 0 if new else chance.randint(1, 9), chance.uniform(0.0, 0.08 if new else 0.01)
        )
        told += lines
        result["kills"] += 1
        result["changes"] += sum(" " in line for line in lines)
        result["killed_before_open"] += "open" not in lines
        result["faults"] += [f"kill {kill}: {fault}" for fault in faults_of(folder, told)]
    sys.stdout.write(json.dumps(result))


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
