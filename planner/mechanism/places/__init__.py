"""Places: where every copy of a part stands in the device."""
