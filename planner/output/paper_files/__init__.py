"""Papers printed as HTML and as PDF."""
