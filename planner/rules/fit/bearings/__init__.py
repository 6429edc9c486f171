"""Rules of bearings in their pockets and on their shafts."""
