"""What the kinds of rules, the rows of ``profiles/rules``, say about findings: their order, their table."""
