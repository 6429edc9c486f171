"""Ways: what the cuts along one way of a part come to, apart from all other ways."""
