"""The command line: ``doughwright VERB [what] [--kitchen FILE] [--json]``."""

from __future__ import annotations

import click

import doughwright
from doughwright.cli._shell import Shell
from doughwright.cli._weighing import formula, scale, water
from doughwright.cli._writing import check, find, new

__all__ = ["main"]


@click.group(cls=Shell, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(doughwright.__version__, prog_name="doughwright", message="%(prog)s %(version)s")
def main() -> None:
    """Develop, prove and publish recipes made from slow yeasted doughs.

    WHAT is a recipe document, "-" for standard input, or a name on the bench.
    """


for verb in (new, check, find, formula, scale, water):
    main.add_command(verb)
