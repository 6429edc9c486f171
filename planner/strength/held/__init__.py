"""What holds a part by a face of it, as glue does: its layers there may be peeled apart, which cuts do not see."""
