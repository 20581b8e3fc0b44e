"""The two meanings of the core, exact and symbolic, and searches over them."""
