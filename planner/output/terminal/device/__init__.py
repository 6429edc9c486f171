"""A device as a whole in a terminal: where its parts are weakest."""
