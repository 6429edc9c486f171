"""Reading: the bytes of a program become words, and the words moves with what was set while they ran."""
