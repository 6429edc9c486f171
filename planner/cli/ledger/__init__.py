"""Commands about a chapter's ledger, and the events that it is told."""
