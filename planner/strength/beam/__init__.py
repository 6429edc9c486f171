"""Beam pass: sections across a loaded part, and the stresses that forces leave in them."""
