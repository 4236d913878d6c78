"""Plan: back from the meal through a recipe's steps, by the hours the cook is up."""
