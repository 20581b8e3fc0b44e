"""The typed core: what a sheet means, and what can be said of it without deciding anything."""
