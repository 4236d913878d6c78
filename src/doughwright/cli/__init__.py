"""The command line: ``doughwright VERB [what] [--kitchen FILE] [--json]``."""

from __future__ import annotations

import os

import click

import doughwright
from doughwright.cli._shell import Shell

# A command wants no plugins of the validation library; looking for them takes a tenth of its start.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

__all__ = ["main"]

VERBS = {
    "new": "_writing",
    "check": "_writing",
    "find": "_writing",
    "formula": "_weighing",
    "scale": "_weighing",
    "water": "_mixing",
    "days": "_planning",
    "oven": "_oven",
    "elsewhere": "_elsewhere",
    "fit": "_fitting",
    "narrow": "_learning",
    "calibrate": "_learning",
    "plan": "_planning",
    "card": "_paper",
    "undo": "_keeping",
    "export": "_keeping",
    "import": "_keeping",
    "serve": "_serve",
    "demo": "_demo",
}


@click.group(cls=Shell, verbs=VERBS, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(doughwright.__version__, prog_name="doughwright", message="%(prog)s %(version)s")
def main() -> None:
    """Develop, prove and publish recipes made from slow yeasted doughs.

    WHAT is a recipe document, "-" for standard input, or a name on the bench.
    """
