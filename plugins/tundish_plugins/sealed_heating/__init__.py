"""Sealed heating: expansion, and the vessels that take it up."""
