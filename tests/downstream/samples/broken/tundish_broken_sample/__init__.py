"""Plugins broken on purpose, for tests only."""
