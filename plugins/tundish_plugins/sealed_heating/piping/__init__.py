"""Pipes of heating systems: what several calculations of the family ask for and reckon alike."""
