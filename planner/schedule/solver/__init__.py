"""Engines that find a calendar, and its proof."""
