"""Physics that two families or more share: formulas only, no limits and no rules."""
