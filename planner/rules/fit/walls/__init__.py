"""Walls at scale: lines side by side, layers one on another, and what is thinner than both."""
