"""Gas: pipes, rates, pressures, combustion."""
