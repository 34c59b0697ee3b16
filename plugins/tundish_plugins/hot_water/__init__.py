"""Stored hot water: how fast a store is heated, and what it gives."""
