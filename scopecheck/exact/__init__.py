"""Lines in symbols, and the exact side of readings: from nodes to core formulas."""
