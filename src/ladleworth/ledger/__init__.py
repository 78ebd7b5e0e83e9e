"""Lots, movements, the order of drawing, and the price book.

The ledger holds what came into the kitchen and every change since. What is there is the sum of the movements;
cents and quantities are conserved exactly; an entry is never edited, only reversed by its opposite.
"""

from ladleworth.ledger.book import Balance, Draft, Entered, Ledger
from ladleworth.ledger.containers import size_of, size_words
from ladleworth.ledger.cover import Cover, cheapest_cover
from ladleworth.ledger.index import BatchAccount, Holding
from ladleworth.ledger.lot import Lot, LotUnit, Spot, Standing, in_words
from ladleworth.ledger.movement import Cause, Kind, Movement, negation
from ladleworth.ledger.order import Take, earliest, eat_first
from ladleworth.ledger.price_book import (
    Offer,
    PriceBook,
    PriceHistory,
    break_even_share,
    describe,
    shelf_price,
    surcharges,
)
from ladleworth.ledger.receipt import Cart, Receipt, ReceiptLine, unpack
from ladleworth.ledger.shopping import ListLine, Need, shopping_list, shortfall, usable
from ladleworth.ledger.stock_up import StockUp, Until, Use, stock_up, use_of
from ladleworth.ledger.stocking import buy, count, fresh_lot_id, move, open_package, take_stock
from ladleworth.ledger.undoing import reverse
from ladleworth.ledger.use_up import UseUp, use_up
from ladleworth.ledger.using import Portions, cook, draw, draw_earliest, eat, give_away, throw_out

__all__ = [
    "Balance",
    "BatchAccount",
    "Cart",
    "Cause",
    "Cover",
    "Draft",
    "Entered",
    "Holding",
    "Kind",
    "Ledger",
    "ListLine",
    "Lot",
    "LotUnit",
    "Movement",
    "Need",
    "Offer",
    "Portions",
    "PriceBook",
    "PriceHistory",
    "Receipt",
    "ReceiptLine",
    "Spot",
    "Standing",
    "StockUp",
    "Take",
    "Until",
    "Use",
    "UseUp",
    "break_even_share",
    "buy",
    "cheapest_cover",
    "cook",
    "count",
    "describe",
    "draw",
    "draw_earliest",
    "earliest",
    "eat",
    "eat_first",
    "fresh_lot_id",
    "give_away",
    "in_words",
    "move",
    "negation",
    "open_package",
    "reverse",
    "shelf_price",
    "shopping_list",
    "shortfall",
    "size_of",
    "size_words",
    "stock_up",
    "surcharges",
    "take_stock",
    "throw_out",
    "unpack",
    "usable",
    "use_of",
    "use_up",
]
