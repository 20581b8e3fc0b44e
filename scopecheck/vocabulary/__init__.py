"""What a sheet and a phrase may name: things, parts, steps, classes, and the phrases themselves."""
