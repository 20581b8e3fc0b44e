"""From a sheet's text to statements as written; nothing has a meaning yet."""
