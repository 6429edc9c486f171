"""Loaded parts in pictures: the share of the strength on their faces, the weakest places, and how they bend."""
