"""What each command does; `cli` knows only these."""
