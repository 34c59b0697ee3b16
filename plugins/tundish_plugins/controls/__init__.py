"""Controls: what wiring does, how many cores it needs, what cable and sensor show."""
