"""Safety of unvented hot water: where relief water goes, and in which order the valves open."""
