"""From findings to a report, and from a report to text, Markdown and JSON."""
