"""Options of `decide` for what the household settles beforehand, and for what is compared."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from typing import Any, TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., Any])

WISHES = {
    "cook": ("DISH[@DAY][*PORTIONS][=VERSION]", "Cook this dish."),
    "leave_out": ("DISH[@DAY][=VERSION]", "Do not cook this dish."),
    "use": ("LOT[*AMOUNT]", "Use this lot, or so much of it."),
    "serve": ("'EATER MEAL DAY=DISH'", "Settle a meal; =out for a meal out."),
    "same_as": ("EARLIER@DAY", "Let everyone have what they had on an earlier day."),
    "buy": ("OFFER[@DAY][*PACKAGES]", "Buy this."),
    "in_basket": ("OFFER[*PACKAGES]", "This is in the basket on the first day already."),
    "gone": ("OFFER", "The shop does not have this now."),
    "price": ("OFFER=2.49", "The shop asks so much for it now."),
    "without_shop": ("SHOP", "Leave this shop out."),
}
"""How each wish is written, and its help."""


def wishing(command: Command) -> Command:
    """Add the options for wishes, each of which may be given again; the command takes them as one `wanted`."""

    @wraps(command)
    def gathered(*given: Any, **options: Any) -> Any:
        from ladleworth.week.wanted import Wanted

        return command(*given, wanted=Wanted(**{name: options.pop(name) for name in WISHES}), **options)

    for name, (metavar, told) in reversed(WISHES.items()):
        option = f"--{name.replace('_', '-')}"
        gathered = click.option(option, multiple=True, metavar=metavar, help=told)(gathered)
    return gathered  # type: ignore[return-value]  # with more options than the command


@dataclass(frozen=True, slots=True)
class Compared:
    """What is compared with the plan, as it was written; nothing by default."""

    why_not: tuple[str, ...] = ()
    ladder: str = ""
    shop_worth: str = ""
    near: int = 0


def comparing(command: Command) -> Command:
    """Add the options for comparisons; the command takes them as one `compared`."""

    @wraps(command)
    def gathered(*given: Any, **options: Any) -> Any:
        names = ("why_not", "ladder", "shop_worth", "near")
        return command(*given, compared=Compared(**{name: options.pop(name) for name in names}), **options)

    added = [
        click.option("--why-not", multiple=True, metavar="DISH", help="Say what this dish would cost more."),
        click.option("--ladder", default="", metavar="20,25,30", help="The same week at these budgets."),
        click.option("--shop-worth", default="", metavar="SHOP", help="Say what going to this shop saves."),
        click.option(
            "--near",
            type=click.IntRange(0, 20),
            default=0,
            metavar="N",
            help="N more plans with other dishes.",
        ),
    ]
    for option in reversed(added):
        gathered = option(gathered)
    return gathered  # type: ignore[return-value]  # with more options than the command
