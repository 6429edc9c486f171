"""What the ledger's history teaches, told and put to use: learned numbers, drifts, the months to come."""
