"""Ladleworth: plan, buy, cook, divide, keep and cost a home cook's batches."""

__version__ = "0.1.0"
