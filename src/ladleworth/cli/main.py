"""The command `ladleworth`: finds the command that was asked for, and ends with one message where it fails."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Sequence
from typing import Any

import click

HELP_ENDS = {"help_option_names": ["-h", "--help"], "max_content_width": 88}

COMMANDS: dict[str, dict[str, tuple[str, str]]] = {
    "Papers": {
        "check": ("check:check", "List every fault and doubt of a kitchen folder."),
        "load": ("papers:load", "Load a kitchen folder into a new kitchen file."),
        "dump": ("papers:dump", "Write a kitchen file out as a folder."),
        "facts": ("facts:facts", "Show what is known of foods, with sources."),
        "read": ("read:read", "Read a recipe and print it as a dish of ours."),
    },
    "On hand": {
        "onhand": ("onhand:onhand", "List what is on hand, in the order of use."),
        "count": ("acts:count", "Enter what a count of a lot found."),
        "move": ("acts:move", "Put a lot in the fridge, freezer or cupboard."),
        "open": ("acts:open_", "Open a lot's package."),
        "throw": ("acts:throw", "Enter that a lot was thrown out, and why."),
        "give": ("acts:give", "Enter that a lot was given away."),
        "undo": ("acts:undo", "Take an entry back by its number."),
        "history": ("acts:history", "List the ledger's entries."),
        "bring": ("coming_in:bring", "Enter an unplanned purchase or a gift."),
        "price": ("coming_in:price", "Put a price that was seen into the price book."),
        "prices": ("prices:prices", "Compare packages by the unit."),
    },
    "The week": {
        "decide": ("decide:decide", "Decide what to buy, cook, chill and freeze."),
        "dish": ("dish:dish", "Show a dish scaled, with its workings."),
        "buy": ("carry:buy", "Enter the plan's shopping of a day."),
        "cookday": ("cookday:cookday", "Say when each piece of work runs."),
        "cook": ("carry:cook", "Enter the plan's cooking of a day."),
        "divide": ("divide:divide", "Divide a batch into portions and containers."),
        "cool": ("cool:cool", "Forecast how a container of food cools."),
        "eat": ("carry:eat", "Enter the plan's meals of a day."),
        "reckon": ("reckon:reckon", "Say what the week, and each portion, cost."),
        "judge": ("judge:judge", "Check a plan against every rule."),
        "demo": ("demo:demo", "Live a whole week of the demo kitchen."),
    },
}
"""Every command by section: where it is, and its help in a line (kept here so that help imports nothing)."""


class Door(click.Group):
    """The group of all commands; it imports only the one that is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002  # the signature is click's
        """Name every command, in the order of the week."""
        return [name for section in COMMANDS.values() for name in section]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Import one command."""
        for section in COMMANDS.values():
            if cmd_name in section:
                module, _, attribute = section[cmd_name][0].partition(":")
                found: click.Command = getattr(importlib.import_module(f"ladleworth.cli.{module}"), attribute)
                return found
        return None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or say which one may be meant."""
        if args and self.get_command(ctx, args[0]) is None and not args[0].startswith("-"):
            import difflib

            near = difflib.get_close_matches(args[0], self.list_commands(ctx), n=1)
            hint = f"did you mean {near[0]!r}?" if near else "ladleworth --help lists them"
            ctx.fail(f"there is no command {args[0]!r}; {hint}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Write the commands by section without importing any."""
        for title, section in COMMANDS.items():
            with formatter.section(title):
                formatter.write_dl([(name, line) for name, (_, line) in section.items()])

    def main(self, args: Sequence[str] | None = None, *given: Any, **extra: Any) -> Any:
        """Run a command and leave with its exit code; what a user can mend ends in one message."""
        from ladleworth.cli.ending import ended

        arguments = list(sys.argv[1:] if args is None else args)
        options = {**extra, "prog_name": "ladleworth", "standalone_mode": False}

        def run() -> Any:
            return super(Door, self).main(arguments, *given, **options)

        sys.exit(ended(run, arguments))


@click.group(cls=Door, context_settings=HELP_ENDS, no_args_is_help=True)
@click.version_option(package_name="ladleworth", message="%(prog)s %(version)s")
def main() -> None:
    """Plan, buy, cook, divide, keep and cost a home cook's batches.

    A KITCHEN is a kitchen folder or the file that one was loaded into. Commands that enter something need the
    file. Every command takes --json. Exit codes and examples: docs/cli.md.
    """
