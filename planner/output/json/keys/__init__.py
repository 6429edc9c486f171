"""The reference of what plan.json holds, key by key."""
