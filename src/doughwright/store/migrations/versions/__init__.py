"""How a bench's tables came to be, step by step."""
