"""How the tables of the workshop store came to be what they are, step by step."""
