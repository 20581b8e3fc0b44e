"""scopecheck: what a patent claim reaches when its words are read in more than one way."""

__version__ = "0.1.0"
