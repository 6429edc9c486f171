"""What form cannot tell, asked: pictures of questions, and what ``start`` says in a terminal and as JSON."""
