"""What everything else stands on: records, places in a text, messages, units."""
