"""Cold water from the main: what it can give, the pipes that carry it, and what they stand."""
