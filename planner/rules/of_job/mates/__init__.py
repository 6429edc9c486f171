"""Bind the rules of what sits in a bore and is no screw: bearings, and pegs of other parts."""
