"""From claims as they stand in a document to a sheet: what is proposed, assumed, asked, and left open."""
