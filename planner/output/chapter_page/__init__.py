"""The page of a chapter: who waits for what, what to do today, who and what is busy when, spools, what to buy."""
