"""Condensate: quantity, drain, pump."""
