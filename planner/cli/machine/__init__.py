"""Commands about printer, settings and programs."""
