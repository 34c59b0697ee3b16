"""Calculations and rules that come with tundish, registered through the same door as any other."""
