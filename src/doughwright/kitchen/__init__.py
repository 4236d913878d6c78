"""A kitchen: its document, and what is assumed where it says nothing."""
