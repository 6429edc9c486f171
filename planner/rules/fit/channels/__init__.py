"""Rules of the channels that cords run in."""
