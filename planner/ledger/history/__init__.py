"""History: what the ledger's own prints and coupons teach about printers, materials, lots and the months to come."""
