"""Text for foods.yaml from foods taken elsewhere."""

from __future__ import annotations

import json
from collections.abc import Iterable
from fractions import Fraction

from ladleworth.facts import OwnFood
from ladleworth.units import show_number

HEAD = "# Taken from FoodData Central, per 100 g of the edible part. Check each against the packet.\n"


def foods_yaml(foods: Iterable[OwnFood]) -> str:
    """Write foods as text that the kitchen folder's reader takes.

    Parameters
    ----------
    foods
        Foods with a composition from elsewhere.

    Returns
    -------
    str
        YAML. What the source does not say (how long it keeps, allergens, the weight as bought) stands as
        comments for the cook, never as a figure.
    """
    blocks = [HEAD]
    for own in foods:
        lines = [f"- food: {json.dumps(own.food.name, ensure_ascii=False)}", "  measured_in: grams"]
        if own.composition is not None:
            lines[0] += f"          # FoodData Central {own.composition.source_key}"
            amounts = ", ".join(f"{name}: {_decimal(amount)}" for name, amount in own.composition.amounts)
            lines.append(f"  per_100_g: {{{amounts}}}")
        lines.append("  # keep_days: write how many days it keeps once bought, or durable")
        lines.append("  # allergens: copy them from the label; [] when it names none")
        lines += [
            f"  # one {piece.size} weighs {_decimal(piece.weight.value)} g without what is thrown away"
            for piece in own.pieces
        ]
        blocks.append("\n".join(lines) + "\n")
    return "".join(blocks)


def _decimal(number: Fraction) -> str:
    return show_number(number, "decimal")
