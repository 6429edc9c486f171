"""The report: one offline page."""
