"""An invented region, for tests only."""
