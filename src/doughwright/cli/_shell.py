"""The shell round every verb: one place where errors become words or JSON, and exit codes."""

from __future__ import annotations

import gc
import importlib
import json
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any, TypeVar

import click

from doughwright.errors import DoughwrightError, Fault, InputError, did_you_mean
from doughwright.figures import jsonable

F = TypeVar("F", bound=Callable[..., Any])

WRONG = "something went wrong inside Doughwright"


class Shell(click.Group):
    """The command group: exit 0 done, 2 the input is wrong, 3 there is no answer, 1 we are wrong.

    ``verbs`` names the module that holds each verb; only that of the verb asked for is loaded.
    """

    def __init__(self, *rest: Any, verbs: Mapping[str, str], **extra: Any) -> None:
        super().__init__(*rest, **extra)
        self.verbs = verbs

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every verb, in the order of the work."""
        return list(self.verbs)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """A verb by its name, ``None`` where there is none."""
        if cmd_name not in self.verbs:
            return None
        module = importlib.import_module(f"doughwright.cli.{self.verbs[cmd_name]}")
        command = {one.name: one for one in vars(module).values() if isinstance(one, click.Command)}
        return command[cmd_name]

    def main(self, args: Sequence[str] | None = None, *rest: Any, **extra: Any) -> Any:
        """Run one verb; every error is told once, in words or, with ``--json``, as JSON."""
        run = partial(super().main, prog_name="doughwright", standalone_mode=False)
        if not extra.get("standalone_mode", True):
            return run(args)
        given = list(sys.argv[1:] if args is None else args)
        # A verb ends before there is anything worth collecting; looking for it is a tenth of its time.
        gc.disable()
        try:
            sys.exit(self._run(partial(run, given), as_json="--json" in given))
        finally:
            gc.enable()

    def _run(self, run: Callable[[], object], *, as_json: bool) -> int:
        try:
            result = run()
            sys.stdout.flush()
        except click.exceptions.NoArgsIsHelpError as error:
            click.echo(error.format_message())
            return 2
        except click.ClickException as error:
            return tell(InputError(self._usage(error)), as_json)
        except DoughwrightError as error:
            return tell(error, as_json)
        except (click.Abort, KeyboardInterrupt):
            return 130
        except BrokenPipeError:
            # Whoever read our output has gone: say nothing more, and let Python close nothing twice.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return 0
        except Exception as error:  # noqa: BLE001 - the last resort: no traceback reaches a cook
            return tell(_ours(error), as_json)
        return result if isinstance(result, int) else 0

    def _usage(self, error: click.ClickException) -> Fault:
        message = " ".join(error.format_message().split()).rstrip(".")
        context = getattr(error, "ctx", None)
        path = context.command_path if context else "doughwright"
        wrong = message.partition("No such command ")[2].strip("'\"")
        near = did_you_mean(wrong, self.verbs) if wrong else None
        return Fault(message, try_=near or f"See {path} --help")


def _ours(error: Exception) -> DoughwrightError:
    if os.environ.get("DOUGHWRIGHT_TRACEBACK"):
        raise error
    kind = type(error).__name__
    try_ = "Set DOUGHWRIGHT_TRACEBACK=1 to see where, and report it with the document that did it"
    return DoughwrightError(Fault(f"{WRONG} ({kind}: {error})", try_=try_))


def tell(error: DoughwrightError, as_json: bool) -> int:
    """Tell an error on standard error, and with ``--json`` on standard output too; its exit code."""
    click.echo(error.in_words(), err=True)
    if as_json:
        emit(error)
    return error.exit_code


def emit(result: object) -> None:
    """Print a result as JSON."""
    click.echo(json.dumps(jsonable(result), ensure_ascii=False, indent=2))


def note(text: str) -> None:
    """Say something beside the result, on standard error."""
    click.echo(text, err=True)


def what_argument(function: F) -> F:
    """The recipe a verb is about: a file, ``-`` for standard input, or a name on the bench."""
    return click.argument("what", required=False)(function)


def kitchen_option(function: F) -> F:
    """The kitchen to use in place of the recipe's own."""
    text = "A kitchen document; left out: the recipe's own, else the middle of the published population."
    return click.option("--kitchen", metavar="FILE", help=text)(function)


def bench_option(function: F) -> F:
    """The bench that names are looked up in."""
    text = "The bench (a folder) to look names up in; left out: the folder you are in."
    return click.option("--bench", metavar="FOLDER", envvar="DOUGHWRIGHT_BENCH", help=text)(function)


def json_option(function: F) -> F:
    """Print the result as JSON."""
    return click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")(function)


def prints(*kinds: type) -> Callable[[click.Command], click.Command]:
    """Say which dataclass a verb's ``--json`` prints; ``docs/commands.md`` is made from it."""

    def mark(command: click.Command) -> click.Command:
        vars(command)["json_type"] = kinds if len(kinds) > 1 else kinds[0]
        return command

    return mark
