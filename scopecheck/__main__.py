"""`python -m scopecheck` is the same as the command `scopecheck`."""

from __future__ import annotations

from scopecheck.cli import main

if __name__ == "__main__":
    main()
