"""What a chapter's ledger says, in a terminal."""
