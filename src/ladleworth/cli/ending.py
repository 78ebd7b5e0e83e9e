"""How a command ends: its exit code, and one message for what went wrong."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from ladleworth.errors import Finding

USAGE, FILES, INTERRUPTED = 2, 7, 130


def ended(run: Callable[[], Any], arguments: Sequence[str]) -> int:
    """Run a command and turn how it ends into an exit code.

    Parameters
    ----------
    run
        The command.
    arguments
        What was written after the program's name; with --json among them, errors are written as JSON.

    Returns
    -------
    int
        0, or what docs/cli.md lists. An error that is no fault of the user is raised: it is a defect.
    """
    from ladleworth.errors import FaultyKitchen, LadleworthError

    options = arguments[: arguments.index("--")] if "--" in arguments else arguments
    as_json = "--json" in options
    try:
        code = run()
        sys.stdout.flush()
    except click.exceptions.NoArgsIsHelpError as help_wanted:
        click.echo(help_wanted.ctx.get_help())
        return USAGE
    except click.ClickException as wrong:
        where = wrong.ctx.command_path if isinstance(wrong, click.UsageError) and wrong.ctx else "ladleworth"
        return _tell("usage", f"{wrong.format_message()} ({where} --help)", USAGE, as_json=as_json)
    except (click.Abort, KeyboardInterrupt):
        return interrupted(as_json=as_json)
    except BrokenPipeError:
        # the reader of our output has gone; what is left in the buffer has nowhere to go
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except FaultyKitchen as faulty:
        return _tell(
            kind_of(faulty), _summary(faulty.findings), faulty.exit_code, faulty.findings, as_json=as_json
        )
    except LadleworthError as error:
        return _tell(kind_of(error), str(error), error.exit_code, as_json=as_json)
    except OSError as error:
        name = "" if error.filename is None else f"{error.filename}: "
        return _tell(
            "files", f"{name}{error.strerror or error}; see to its name and rights", FILES, as_json=as_json
        )
    return code if isinstance(code, int) else 0


def interrupted(*, as_json: bool) -> int:
    """Say that the interrupt key has stopped the command."""
    return _tell("interrupted", "stopped; nothing more was done", INTERRUPTED, as_json=as_json)


def kind_of(error: Exception) -> str:
    """Name an error's kind in small words: FaultyKitchen is 'faulty kitchen'."""
    return "".join(f" {c.lower()}" if c.isupper() else c for c in type(error).__name__).strip()


def _summary(findings: Sequence[Finding]) -> str:
    """Say in one message what the findings come to: the one there is, or how many there are."""
    from ladleworth.errors import Weight

    faults = [finding for finding in findings if finding.weight is Weight.FAULT]
    return str(faults[0]) if len(faults) == 1 else f"{len(faults)} faults were found, so nothing was done"


def _tell(kind: str, message: str, code: int, findings: Sequence[Finding] = (), *, as_json: bool) -> int:
    """Write the one message of a failure: JSON on stdout, or words on stderr."""
    from ladleworth.errors import Weight

    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json({"error": {"kind": kind, "message": message, "findings": list(findings)}})
        return code
    click.echo(f"ladleworth: {message}", err=True)
    for finding in sorted(findings, key=lambda finding: finding.weight is Weight.DOUBT):
        if str(finding) != message:
            click.echo(f"  {finding.weight.value}  {finding}", err=True)
    return code
