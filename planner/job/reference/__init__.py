"""The reference: what job files and profiles may hold, read off the records that readers fill; and the glossary."""
